package dev.ullage.replay;

import dev.ullage.input.Findings;
import dev.ullage.loop.Frame;
import dev.ullage.replay.TraceOptions.Missing;
import dev.ullage.replay.TraceOptions.Values;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.IntStream;

/** One line of values. What is wrong with it goes to the findings. */
final class TraceLine {
  private static final String FAILED = "-";
  private static final Set<String> NO_VALUES = Set.of("", "na", "n/a", "nan", "null");
  private static final int LONGEST_SHOWN = 40;
  private static final String CURE_FOR_MISSING =
      "`--missing fault` takes it as a failed reading, `--missing skip` leaves it out";

  private final int line;
  private final Cells cells;
  private final TraceLayout layout;
  private final Findings findings;
  private final List<Integer> columns;

  TraceLine(int line, Cells cells, TraceLayout layout, Findings findings) {
    this.line = line;
    this.cells = cells;
    this.layout = layout;
    this.findings = findings;
    this.columns =
        layout.width() > 0 ? layout.values() : IntStream.range(0, cells.size()).boxed().toList();
  }

  /**
   * The reading, or nothing where values are missing that may be, or findings were added.
   *
   * @param otherwise the time, in milliseconds, where there is no column for it
   */
  Optional<Reading> read(
      Frame frame, UnitCounts counts, FrameBytes bytes, Missing policy, long otherwise) {
    if (cells.size() == 1 && cells.text(0).equals(FAILED)) {
      return Optional.of(Reading.failed(line, otherwise));
    }
    checkWidth(frame);
    if (!findings.isEmpty()) {
      return Optional.empty();
    }
    long time = layout.time().map(this::time).orElse(otherwise);
    boolean failed = columns.stream().allMatch(column -> cells.text(column).equals(FAILED));
    boolean missing = columns.stream().anyMatch(this::isMissing);
    if (failed || missing && policy == Missing.FAULT) {
      return Optional.of(Reading.failed(line, time));
    }
    if (missing) {
      columns.stream()
          .filter(column -> isMissing(column) && policy == Missing.REFUSE)
          .forEach(column -> report(column, "a number", Optional.of(CURE_FOR_MISSING)));
      return Optional.empty();
    }
    long[] raw = layout.kind() == Values.BYTES ? unpack(frame, bytes) : samples(frame, counts);
    return findings.isEmpty() ? Optional.of(new Reading(line, time, raw)) : Optional.empty();
  }

  private void checkWidth(Frame frame) {
    if (layout.width() > 0 && cells.size() != layout.width()) {
      String expected = TraceLayout.counted(layout.width(), "column") + ", as the first line has";
      findings.add(line, 0, "the line", TraceLayout.counted(cells.size(), "column"), expected);
    } else if (!layout.suits(columns.size(), frame)) {
      findings.add(
          line,
          0,
          "the line",
          TraceLayout.counted(columns.size(), "column"),
          layout.expected(frame),
          cureForWidth());
    }
  }

  /** The other kind of report has the average, a comma, and 0 or 1 for the alarm. */
  private Optional<String> cureForWidth() {
    return cells.size() == 2 && cells.text(1).matches("[01]")
        ? Optional.of("if these are averages, make the firmware send `report: {send: frame}`")
        : Optional.empty();
  }

  private boolean isMissing(int column) {
    return NO_VALUES.contains(cells.text(column).toLowerCase(Locale.ROOT));
  }

  private long time(TimeColumn column) {
    OptionalLong ms = column.ms(cells.text(column.index()));
    if (ms.isEmpty()) {
      report(column.index(), TimeColumn.EXPECTED, Optional.empty());
    }
    return ms.orElse(0);
  }

  private long[] samples(Frame frame, UnitCounts counts) {
    long[] raw = new long[frame.samples()];
    for (int i = 0; i < columns.size(); i++) {
      raw[i] = layout.kind() == Values.RAW ? count(columns.get(i), counts) : unit(i, counts);
    }
    if (columns.size() == 1) {
      Arrays.fill(raw, raw[0]);
    }
    return raw;
  }

  private long unit(int place, UnitCounts counts) {
    String text = cells.text(columns.get(place));
    if (Cells.isNumber(text)) {
      return counts.of(new BigDecimal(text), line);
    }
    boolean comma = text.matches("[-+]?[0-9]+,[0-9]+");
    report(
        columns.get(place),
        "a number",
        comma ? Optional.of("write a point for the decimal comma") : Optional.empty());
    return 0;
  }

  private long count(int column, UnitCounts counts) {
    OptionalLong count = whole(cells.text(column));
    if (count.isEmpty() || !counts.holds(count.getAsLong())) {
      report(column, counts.range(), Optional.empty());
      return 0;
    }
    return count.getAsLong();
  }

  private static OptionalLong whole(String text) {
    if (Cells.isHex(text)) {
      return OptionalLong.of(Long.parseLong(text.substring(2), 16));
    }
    return text.matches("-?[0-9]{1,12}")
        ? OptionalLong.of(Long.parseLong(text))
        : OptionalLong.empty();
  }

  private long[] unpack(Frame frame, FrameBytes decoder) {
    if (columns.size() == frame.bytes()) {
      int[] bytes =
          columns.stream().mapToInt(column -> oneByte(column, cells.text(column))).toArray();
      return findings.isEmpty() ? decoder.samples(bytes) : new long[0];
    }
    int column = columns.get(0);
    String[] pairs = cells.text(column).split("\\s+");
    if (pairs.length != frame.bytes()) {
      report(
          column,
          TraceLayout.counted(frame.bytes(), "byte") + ", as the frame has",
          Optional.empty());
      return new long[0];
    }
    int[] bytes = new int[pairs.length];
    for (int i = 0; i < bytes.length; i++) {
      // In one cell, with blanks between, bytes are pairs of hexadecimal digits.
      boolean bare = pairs[i].matches("[0-9a-fA-F]{2}");
      bytes[i] = oneByte(column, bare ? "0x" + pairs[i] : pairs[i]);
    }
    return findings.isEmpty() ? decoder.samples(bytes) : new long[0];
  }

  private int oneByte(int column, String text) {
    OptionalLong value = whole(text);
    if (value.isEmpty() || value.getAsLong() < 0 || value.getAsLong() > 0xFF) {
      report(column, "a byte, such as 0x3F or 63", Optional.empty());
      return 0;
    }
    return (int) value.getAsLong();
  }

  private void report(int column, String expected, Optional<String> cure) {
    String text = cells.text(column);
    String found =
        text.isEmpty()
            ? "missing"
            : text.length() <= LONGEST_SHOWN ? text : text.substring(0, LONGEST_SHOWN) + "...";
    String name = column < layout.names().size() ? layout.names().get(column) : "";
    String key = name.isEmpty() ? "column " + (column + 1) : name;
    findings.add(line, cells.place(column), key, found, expected, cure);
  }
}
