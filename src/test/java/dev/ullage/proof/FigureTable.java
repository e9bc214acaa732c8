package dev.ullage.proof;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;

/** A table of published figures, as Markdown. */
record FigureTable(String title, List<String> header, List<List<String>> rows) {
  private static final String HEADING = "### ";

  FigureTable {
    header = List.copyOf(header);
    rows = rows.stream().map(List::copyOf).toList();
    for (List<String> row : rows) {
      if (row.size() != header.size()) {
        throw new IllegalArgumentException(row + " does not fit under " + header);
      }
    }
  }

  /** Names of columns, with {@code |} between them. */
  static List<String> columns(String names) {
    return Arrays.stream(names.split("\\|")).map(String::strip).toList();
  }

  String markdown() {
    StringBuilder text = new StringBuilder(HEADING + title + "\n\n");
    List<String> rule = Collections.nCopies(header.size(), "---");
    Stream.concat(Stream.of(header, rule), rows.stream())
        .forEach(row -> text.append("| ").append(String.join(" | ", row)).append(" |\n"));
    return text.toString();
  }

  /**
   * The tables in a text that {@link #markdown} wrote, one after another.
   *
   * @throws IllegalArgumentException where a line is no part of such a table
   */
  static List<FigureTable> parse(String markdown) {
    List<FigureTable> tables = new ArrayList<>();
    for (String part : markdown.split("(?m)^" + HEADING)) {
      if (!part.isBlank()) {
        tables.add(table(part.strip().lines().toList()));
      }
    }
    return tables;
  }

  private static FigureTable table(List<String> lines) {
    if (lines.size() < 4 || !lines.get(1).isEmpty() || !lines.get(3).matches("\\|( --- \\|)+")) {
      throw new IllegalArgumentException("No table: " + lines);
    }
    return new FigureTable(
        lines.get(0),
        cells(lines.get(2)),
        lines.subList(4, lines.size()).stream().map(FigureTable::cells).toList());
  }

  private static List<String> cells(String line) {
    if (!line.startsWith("| ") || !line.endsWith(" |")) {
      throw new IllegalArgumentException("No row of a table: " + line);
    }
    return columns(line.substring(1, line.length() - 1));
  }
}
