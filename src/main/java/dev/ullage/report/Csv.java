package dev.ullage.report;

import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A table as comma-separated values (RFC 4180). A cell that a spreadsheet would take for a formula
 * gets an apostrophe in front, which spreadsheets take to mean text.
 */
final class Csv {
  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(\\.[0-9]+)?");
  private static final String FORMULA_STARTS = "=+-@\t\r";

  private Csv() {}

  /** The title line and the rows, each ended by CR LF. */
  static String of(Table table) {
    Stream<String> titles = table.columns().stream().map(Table.Column::title);
    return Stream.concat(Stream.of(titles.toList()), table.rows().stream())
        .map(Csv::line)
        .collect(Collectors.joining());
  }

  private static String line(List<String> cells) {
    return cells.stream().map(Csv::cell).collect(Collectors.joining(",", "", "\r\n"));
  }

  static String cell(String text) {
    String safe = isFormula(text) ? "'" + text : text;
    boolean plain = safe.chars().noneMatch(c -> c == ',' || c == '"' || c == '\r' || c == '\n');
    return plain ? safe : '"' + safe.replace("\"", "\"\"") + '"';
  }

  private static boolean isFormula(String text) {
    return !text.isEmpty()
        && FORMULA_STARTS.indexOf(text.charAt(0)) >= 0
        && !NUMBER.matcher(text).matches();
  }
}
