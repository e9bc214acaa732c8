package dev.ullage.report;

import dev.ullage.input.Printable;
import dev.ullage.sizing.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** Text for a terminal, put together from prose, tables and bars, each as wide as there is room. */
final class TextPage {
  private final Style style;
  private final List<String> lines = new ArrayList<>();

  TextPage(Style style) {
    this.style = style;
  }

  /** An empty line. */
  void gap() {
    lines.add("");
  }

  void line(String line) {
    lines.add(line);
  }

  void lines(List<String> more) {
    lines.addAll(more);
  }

  /** Prose, safe for a terminal: the head, then the text, below itself where it is long. */
  void prose(String head, String text) {
    lines.addAll(Paragraph.lines(head, Printable.of(text), style.columns()));
  }

  void table(Table table) {
    table("", table);
  }

  /** A table with an empty line above it. */
  void section(Table table) {
    gap();
    table(table);
  }

  /** A table with something before each of its lines. */
  void table(String indent, Table table) {
    TextTable text = TextTable.wrapping(table, style.columns() - indent.length());
    text.title().forEach(line -> lines.add(indent + line));
    text.rows().forEach(line -> lines.add(indent + line));
  }

  /** A memory, with its name before it. */
  void bar(String name, MemoryBar bar) {
    lines.add(name + bar.draw(style.columns() - name.length()));
  }

  /** The verdict, in its colour where there are colours, and why. */
  void verdict(Verdict verdict) {
    String word = Style.word(verdict.kind());
    String reason = Printable.of(verdict.reason()) + ".";
    List<String> wrapped = Paragraph.lines(word + ": ", reason, style.columns());
    lines.add(style.verdict(verdict.kind(), 0) + wrapped.get(0).substring(word.length()));
    lines.addAll(wrapped.subList(1, wrapped.size()));
  }

  /** All of it, every line ended. */
  String text() {
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }
}
