package dev.ullage.replay;

import dev.ullage.input.Findings;
import dev.ullage.input.Nearest;
import dev.ullage.loop.Frame;
import dev.ullage.replay.TraceOptions.Values;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Which column of a trace is what.
 *
 * @param names of the columns, or their numbers where there is no header
 * @param width cells in a line; 0 where that follows from nothing but the line
 * @param values columns of the values, from 0, in the order of the samples
 */
record TraceLayout(
    List<String> names, int width, List<Integer> values, Optional<TimeColumn> time, Values kind) {

  private static final List<String> TIME_NAMES = List.of("time_ms", "time_s", "time_min", "time_h");

  /** The layout that the first line tells, be it a header or values already. */
  static TraceLayout of(
      Cells first, Frame frame, TraceOptions options, Findings findings, int line) {
    boolean header = first.isHeader();
    List<String> names =
        IntStream.range(0, first.size())
            .mapToObj(i -> header ? first.text(i) : "column " + (i + 1))
            .toList();
    Columns columns = new Columns(names, header, findings, line);
    Optional<TimeColumn> time = columns.time(options);
    List<Integer> values = columns.values(options, time);
    Values kind =
        options.values().orElseGet(() -> header ? kindOf(names, values) : kindOf(first, frame));
    // Without a header the first line may be the broken one: only the loop says how many there are.
    int width = header || !options.columns().isEmpty() ? names.size() : 0;
    TraceLayout layout = new TraceLayout(names, width, values, time, kind);
    if (width > 0 && findings.isEmpty() && !layout.suits(values.size(), frame)) {
      findings.add(
          line,
          0,
          "the line",
          counted(values.size(), "column"),
          layout.expected(frame),
          "choose the columns with --column, and that of the time with --time");
    }
    return layout;
  }

  private static Values kindOf(List<String> names, List<Integer> values) {
    if (values.stream().allMatch(i -> lower(names.get(i)).startsWith("byte"))) {
      return Values.BYTES;
    }
    return values.stream().allMatch(i -> lower(names.get(i)).startsWith("raw"))
        ? Values.RAW
        : Values.UNIT;
  }

  private static Values kindOf(Cells first, Frame frame) {
    boolean hex = first.texts().stream().allMatch(Cells::isHex);
    return hex && first.size() == frame.bytes() ? Values.BYTES : Values.UNIT;
  }

  private static String lower(String text) {
    return text.toLowerCase(Locale.ROOT);
  }

  /** True if a line may have so many values. */
  boolean suits(int count, Frame frame) {
    return count == 1 || count == (kind == Values.BYTES ? frame.bytes() : frame.samples());
  }

  /** How many values a line must have. */
  String expected(Frame frame) {
    if (kind == Values.BYTES) {
      return counted(frame.bytes(), "byte") + " of the frame, a column each or all in one";
    }
    return frame.samples() == 1
        ? "one column of values"
        : frame.samples() + " columns, one for each sample, or one for all";
  }

  static String counted(int count, String what) {
    return count + " " + what + (count == 1 ? "" : "s");
  }

  /** Finds columns by their names, and says which are not there. */
  private record Columns(List<String> names, boolean header, Findings findings, int line) {

    Optional<TimeColumn> time(TraceOptions options) {
      if (options.time().isPresent()) {
        return find(options.time().get()).map(i -> new TimeColumn(i, names.get(i)));
      }
      return IntStream.range(0, names.size())
          .filter(i -> header && TIME_NAMES.contains(lower(names.get(i))))
          .mapToObj(i -> new TimeColumn(i, lower(names.get(i))))
          .findFirst();
    }

    List<Integer> values(TraceOptions options, Optional<TimeColumn> time) {
      if (options.columns().isEmpty()) {
        return IntStream.range(0, names.size())
            .filter(i -> time.isEmpty() || time.get().index() != i)
            .boxed()
            .toList();
      }
      List<Integer> values = new ArrayList<>();
      options.columns().forEach(name -> find(name).ifPresent(values::add));
      return values;
    }

    private Optional<Integer> find(String name) {
      int index = names.indexOf(name);
      if (index < 0 && name.matches("[0-9]{1,6}")) {
        index = Integer.parseInt(name) - 1;
      }
      if (index >= 0 && index < names.size()) {
        return Optional.of(index);
      }
      findings.add(
          line,
          0,
          name,
          "not there",
          header ? "the name of a column" : "a number from 1 to " + names.size(),
          Nearest.to(name, names)
              .filter(near -> header)
              .map(near -> "did you mean `" + near + "`?"));
      return Optional.empty();
    }
  }
}
