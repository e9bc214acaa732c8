package dev.ullage.report;

import dev.ullage.input.Printable;
import java.util.List;
import java.util.stream.Collectors;

/** Tables and text in Markdown, as the common renderers read it. */
final class Markdown {
  private static final String SPECIAL = "\\`*_[]<>|~&";

  private Markdown() {}

  static String table(Table table) {
    List<String> titles = table.columns().stream().map(c -> Markdown.title(c.title())).toList();
    String rule =
        table.columns().stream()
            .map(column -> column.right() ? "---:" : "---")
            .collect(Collectors.joining(" | ", "| ", " |\n"));
    return line(titles)
        + rule
        + table.rows().stream().map(Markdown::line).collect(Collectors.joining());
  }

  /** On one line; a word that was parted is whole again. */
  private static String title(String title) {
    return title.replaceAll("-\n(?=[A-Z])", "").replace("-\n", "-").replace('\n', ' ');
  }

  private static String line(List<String> cells) {
    return cells.stream().map(Markdown::text).collect(Collectors.joining(" | ", "| ", " |\n"));
  }

  /** The text such that it is shown as it is: no markup, no HTML, no line break. */
  static String text(String text) {
    StringBuilder escaped = new StringBuilder();
    for (char c : Printable.of(text).toCharArray()) {
      if (SPECIAL.indexOf(c) >= 0) {
        escaped.append('\\');
      }
      escaped.append(c);
    }
    return escaped.toString();
  }
}
