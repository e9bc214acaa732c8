package dev.ullage.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;

/** A grid in characters: each value in its cell, with a {@code *} where it is marked. */
final class GridText {
  private final Values values;
  private final Grid.Mark mark;
  private final Style style;

  GridText(Values values, Grid.Mark mark, Style style) {
    this.values = values;
    this.mark = mark;
    this.style = style;
  }

  /** One line for each row of the grid, without line ends. */
  List<String> lines(Grid grid, Heat heat) {
    int width =
        DoubleStream.of(grid.values())
            .mapToObj(values::bare)
            .mapToInt(String::length)
            .max()
            .orElse(0);
    List<String> lines = new ArrayList<>();
    for (int row = 0; row < grid.rows(); row++) {
      StringBuilder line = new StringBuilder();
      int end = Math.min(grid.values().length, (row + 1) * grid.columns());
      for (int i = row * grid.columns(); i < end; i++) {
        line.append(cell(grid.values()[i], width, heat));
      }
      lines.add(line.toString().stripTrailing());
    }
    return lines;
  }

  private String cell(double value, int width, Heat heat) {
    String text = values.bare(value);
    String cell = " " + " ".repeat(width - text.length()) + text + (mark.marks(value) ? "*" : " ");
    return style.color() ? heat.painted(value, cell) : cell;
  }
}
