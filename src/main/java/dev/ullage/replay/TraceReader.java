package dev.ullage.replay;

import dev.ullage.input.Findings;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Optional;

/**
 * Reads a trace line by line. Lines that are blank or start with {@code #} are left out; the first
 * other one may name the columns; {@code -} is a reading that failed.
 */
public final class TraceReader {
  private final String file;
  private final Frame frame;
  private final TraceOptions options;
  private final UnitCounts counts;
  private final FrameBytes bytes;
  private final long periodMs;
  private Optional<TraceLayout> layout = Optional.empty();
  private char separator;
  private int line;
  private long due;

  /**
   * @param file name as the user gave it
   */
  public TraceReader(String file, Loop loop, TraceOptions options) {
    this.file = file;
    this.frame = loop.sensor().frame();
    this.options = options;
    this.counts = new UnitCounts(loop.sensor());
    this.bytes = new FrameBytes(frame);
    this.periodMs = loop.periodMs();
  }

  /**
   * The reading of the next line, if there is one in it. Its time is that of its column, in
   * milliseconds from whatever moment, or else counted by the loop's period.
   *
   * @throws dev.ullage.input.InputException with everything that is wrong with this line
   */
  public Optional<Reading> take(String text) {
    line++;
    if (text.isBlank() || text.stripLeading().startsWith("#")) {
      return Optional.empty();
    }
    Findings findings = new Findings(file);
    Optional<Reading> reading = read(cells(text, findings), findings);
    findings.throwIfAny();
    if (reading.isPresent()) {
      due += periodMs;
    }
    return reading;
  }

  /** The column of the time, where there is one. */
  Optional<TimeColumn> time() {
    return layout.flatMap(TraceLayout::time);
  }

  /** True once the columns are known; without, no line can be read. */
  boolean knowsColumns() {
    return layout.isPresent();
  }

  /** What was made of values in the unit so far. */
  UnitCounts counts() {
    return counts;
  }

  private Cells cells(String text, Findings findings) {
    if (layout.isEmpty()) {
      separator = Cells.separatorOf(text);
    }
    try {
      return Cells.of(text, separator);
    } catch (IOException | UncheckedIOException e) {
      findings.add(line, 0, "the line", "broken by a quote", "comma-separated values");
      findings.throwIfAny();
      throw new AssertionError(e);
    }
  }

  private Optional<Reading> read(Cells cells, Findings findings) {
    if (layout.isEmpty()) {
      layout = Optional.of(TraceLayout.of(cells, frame, options, findings, line));
      if (!findings.isEmpty()) {
        layout = Optional.empty();
        return Optional.empty();
      }
      if (cells.isHeader()) {
        return Optional.empty();
      }
    }
    return new TraceLine(line, cells, layout.get(), findings)
        .read(frame, counts, bytes, options.missing(), due);
  }
}
