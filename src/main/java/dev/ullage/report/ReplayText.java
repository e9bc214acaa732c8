package dev.ullage.report;

import dev.ullage.input.Printable;
import dev.ullage.replay.Event;
import dev.ullage.replay.LoopMachine;
import dev.ullage.replay.Reading;
import dev.ullage.replay.Replay;
import java.util.List;

/** A replay for a person: the picture first, then when the alarm changed, then the figures. */
final class ReplayText {
  private static final int MOST_EVENTS = 20;

  private final ReplayReport report;
  private final Replay replay;
  private final Style style;
  private final TextPage page;

  ReplayText(ReplayReport report, Style style) {
    this.report = report;
    this.replay = report.replay();
    this.style = style;
    this.page = new TextPage(style);
  }

  String text() {
    String title = replay.loop().name() + " over " + replay.trace().name();
    page.prose(
        "", Printable.of(title + ", average in " + Values.judged(replay.loop()).unit() + ":"));
    page.gap();
    TimePlot plot = new TimePlot(replay, style.columns());
    page.lines(plot.lines());
    page.prose(plot.margin(), "* average, - limit, . where it clears, # alarm on, x failed");
    addFrame();
    addEvents();
    page.gap();
    for (List<String> row : ReplayTables.summary(replay).rows()) {
      page.prose("%-9s".formatted(row.get(0)), row.get(1) + ".");
    }
    ReplayTables.knob(replay).ifPresent(knob -> page.prose("%-9s".formatted("limit"), knob + "."));
    replay.trace().notes().forEach(note -> page.prose("%-9s".formatted("note"), note + "."));
    addRemedies();
    return page.text();
  }

  private void addFrame() {
    int shown = report.frame().orElseGet(this::frameToShow);
    Reading reading = replay.trace().readings().get(shown - 1);
    if (replay.loop().sensor().frame().samples() == 1 || reading.failed()) {
      return;
    }
    LoopMachine.Step step = replay.steps().get(shown - 1);
    Grid grid = Grid.of(replay.loop(), shown, reading, step.alarm());
    Grid.Mark mark = new Grid.Mark(replay.loop(), replay.limits());
    Values values = Values.sampled(replay.loop());
    page.gap();
    page.prose(
        "",
        "Frame of reading %d, in %s; * is %s:"
            .formatted(shown, Printable.of(values.unit()), Printable.of(mark.meaning(values))));
    page.lines(new GridText(values, mark, style).lines(grid, new Heat(grid.low(), grid.high())));
  }

  /** The first reading that raised the alarm, or the last good one. */
  private int frameToShow() {
    for (Event event : replay.events()) {
      if (event.alarm() && !replay.trace().readings().get(event.reading() - 1).failed()) {
        return event.reading();
      }
    }
    int last = replay.steps().size();
    while (last > 1 && replay.trace().readings().get(last - 1).failed()) {
      last--;
    }
    return last;
  }

  private void addEvents() {
    List<Event> events = replay.events();
    if (events.isEmpty()) {
      return;
    }
    page.gap();
    List<Event> shown = events.subList(0, Math.min(events.size(), MOST_EVENTS));
    page.table(ReplayTables.events(replay, shown));
    if (shown.size() < events.size()) {
      page.line("and " + (events.size() - shown.size()) + " more; --format json has all");
    }
  }

  private void addRemedies() {
    if (replay.summary().returns() == 0) {
      return;
    }
    page.gap();
    if (report.remedies().isEmpty()) {
      page.prose("", "No hysteresis and no count of readings stops that on this trace.");
      return;
    }
    page.prose("", "Each of these stops that on this trace; what it costs is at the worst:");
    page.gap();
    page.table(ReplayTables.remedies(report.remedies(), replay.trace().periodMs()));
  }
}
