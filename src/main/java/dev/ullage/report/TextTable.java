package dev.ullage.report;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * A table in characters: columns as wide as their widest cell, two blanks apart where there is
 * room.
 */
final class TextTable {
  private static final int NARROWEST = 20;

  private final Table table;
  private final int[] widths;
  private final String gap;

  TextTable(Table table, int columns) {
    this.table = table;
    this.widths = IntStream.range(0, table.columns().size()).map(this::width).toArray();
    int roomy = IntStream.of(widths).sum() + 2 * (widths.length - 1);
    this.gap = roomy <= columns ? "  " : " ";
  }

  /** As above, with the last column in several lines where there is no room for it in one. */
  static TextTable wrapping(Table table, int columns) {
    TextTable text = new TextTable(table, columns);
    text.narrow(columns);
    return text;
  }

  private void narrow(int columns) {
    int last = widths.length - 1;
    int others = IntStream.of(widths).sum() - widths[last] + last * gap.length();
    if (columns - others >= NARROWEST && !table.columns().get(last).right()) {
      widths[last] = Math.min(widths[last], columns - others);
    }
  }

  /** The lines of the title, without line ends. */
  List<String> title() {
    List<List<String>> titles =
        table.columns().stream().map(column -> column.title().lines().toList()).toList();
    int height = titles.stream().mapToInt(List::size).max().orElse(0);
    return IntStream.range(0, height)
        .mapToObj(i -> titles.stream().map(t -> i < t.size() ? t.get(i) : "").toList())
        .map(this::line)
        .toList();
  }

  /** One line for each row, without line ends. */
  List<String> rows() {
    return table.rows().stream().flatMap(row -> wrapped(row).stream()).map(this::line).toList();
  }

  /** The row, and below it what its last cell has no room for. */
  private List<List<String>> wrapped(List<String> row) {
    int end = row.size() - 1;
    if (row.get(end).length() <= widths[end]) {
      return List.of(row);
    }
    List<List<String>> rows = new ArrayList<>();
    for (String line : Paragraph.lines("", row.get(end), widths[end])) {
      List<String> cells =
          new ArrayList<>(rows.isEmpty() ? row : Collections.nCopies(row.size(), ""));
      cells.set(end, line);
      rows.add(cells);
    }
    return rows;
  }

  private int width(int column) {
    Stream<String> cells = table.rows().stream().map(row -> row.get(column));
    Stream<String> titles = table.columns().get(column).title().lines();
    return Stream.concat(titles, cells).mapToInt(String::length).max().orElse(0);
  }

  private String line(List<String> cells) {
    List<String> padded = new ArrayList<>();
    for (int i = 0; i < widths.length; i++) {
      String blanks = " ".repeat(Math.max(0, widths[i] - cells.get(i).length()));
      boolean right = table.columns().get(i).right();
      padded.add(right ? blanks + cells.get(i) : cells.get(i) + blanks);
    }
    return String.join(gap, padded).stripTrailing();
  }
}
