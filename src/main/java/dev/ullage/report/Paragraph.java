package dev.ullage.report;

import java.util.ArrayList;
import java.util.List;

/** Prose in lines that fit. */
final class Paragraph {
  private Paragraph() {}

  /**
   * The words of the text in lines no longer than {@code columns}, where a single word is not
   * longer itself. The first line starts with {@code head}, the others with blanks of that length.
   */
  static List<String> lines(String head, String text, int columns) {
    List<String> lines = new ArrayList<>();
    String indent = " ".repeat(head.length());
    StringBuilder line = new StringBuilder(head);
    for (String word : text.strip().split("\\s+")) {
      boolean first = line.length() == head.length();
      if (!first && line.length() + 1 + word.length() > columns) {
        lines.add(line.toString());
        line = new StringBuilder(indent);
        first = true;
      }
      line.append(first ? "" : " ").append(word);
    }
    lines.add(line.toString().stripTrailing());
    return lines;
  }
}
