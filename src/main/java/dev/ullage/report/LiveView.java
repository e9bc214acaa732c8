package dev.ullage.report;

import dev.ullage.firmware.Arithmetic;
import dev.ullage.input.Printable;
import dev.ullage.loop.Loop;
import dev.ullage.replay.LimitLines;
import dev.ullage.replay.LoopMachine;
import dev.ullage.replay.Reading;
import dev.ullage.replay.Span;
import java.util.ArrayList;
import java.util.List;

/**
 * What is shown of readings as they arrive. On a terminal a picture that is drawn over itself: the
 * frame, the average, the alarm. Elsewhere a line each time that the alarm changes.
 */
public final class LiveView {
  private final Loop loop;
  private final Arithmetic arithmetic;
  private final Values values;
  private final Grid.Mark mark;
  private final Style style;
  private final boolean redraws;
  private int number;
  private boolean on;
  private int drawn;
  private double low = Double.POSITIVE_INFINITY;
  private double high = Double.NEGATIVE_INFINITY;

  /**
   * @param knob code that the knob stands at
   * @param redraws whether the picture is drawn over the one before
   */
  public LiveView(Loop loop, Arithmetic arithmetic, int knob, Style style, boolean redraws) {
    this.loop = loop;
    this.arithmetic = arithmetic;
    this.values = Values.judged(loop);
    this.mark = new Grid.Mark(loop, LimitLines.of(loop.alarm(), knob));
    this.style = style;
    this.redraws = redraws;
  }

  /** What to print after a reading; may be nothing. */
  public String after(Reading reading, LoopMachine.Step step) {
    number++;
    boolean changed = step.alarm() != on;
    on = step.alarm();
    if (redraws) {
      return picture(reading, step);
    }
    return changed ? status(reading, step) + "\n" : "";
  }

  private String status(Reading reading, LoopMachine.Step step) {
    String average =
        step.sum().isPresent()
            ? "average " + values.full(arithmetic.fold().toUnit(step.sum().getAsLong()))
            : step.good() ? "no average yet" : "failed";
    return Printable.of(
        "alarm %s, reading %d, after %s, %s"
            .formatted(on ? "on" : "off", number, Span.of(reading.timeMs()), average));
  }

  private String picture(Reading reading, LoopMachine.Step step) {
    List<String> lines = new ArrayList<>();
    lines.add(status(reading, step));
    if (loop.sensor().frame().samples() > 1 && !reading.failed()) {
      Grid grid = Grid.of(loop, number, reading, on);
      // One scale for all frames so far, so that what has become warmer looks warmer.
      low = Math.min(low, grid.low());
      high = Math.max(high, grid.high());
      GridText text = new GridText(Values.sampled(loop), mark, style);
      lines.addAll(text.lines(grid, new Heat(low, high)));
    }
    String over = drawn == 0 ? "" : "\u001b[" + drawn + "A\u001b[J";
    drawn = lines.size();
    return over + String.join("\n", lines) + "\n";
  }
}
