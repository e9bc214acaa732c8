package dev.ullage.report;

import dev.ullage.input.Printable;
import dev.ullage.slim.SlimSet;
import dev.ullage.slim.Slimming.Outcome;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The way to make a loop fit, for a person: what is wrong, what to change, where else to go. */
final class SlimText {
  private static final int WIDEST_CHANGE = 54;

  private final SlimReport report;
  private final Style style;
  private final List<String> lines = new ArrayList<>();

  SlimText(SlimReport report, Style style) {
    this.report = report;
    this.style = style;
  }

  String text() {
    Assessment row = report.asItIs();
    String part = row.target().title() + " (" + row.target().core() + ")";
    add("", Printable.of(report.slimming().loop().name()) + " on " + part + ", in bytes:");
    lines.add("");
    addVerdict(row);
    lines.add("");
    add("", report.answer());
    addSets();
    if (report.slimming().outcome() != Outcome.FITS) {
      addNear();
    }
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private void addSets() {
    int number = 0;
    for (SlimSet set : report.slimming().sets()) {
      addSet(number + 1, set, report.slimmed().get(number));
      number++;
    }
    if (number > 0) {
      lines.add("");
      add("", report.search());
    }
  }

  private void addSet(int number, SlimSet set, Assessment slimmed) {
    TextTable table =
        new TextTable(SlimTables.changes(set, slimmed, WIDEST_CHANGE), style.columns() - 3);
    lines.add("");
    add("", "Set " + number + ", weight " + set.weight() + ":");
    table.title().forEach(line -> lines.add("   " + line));
    table.rows().forEach(line -> lines.add("   " + line));
    for (SlimSet.Step step : set.steps()) {
      add("   * ", Printable.of(step.loss()) + ".");
    }
  }

  private void addNear() {
    lines.add("");
    if (report.near().isEmpty()) {
      add("", "No part of the catalogue holds it as it is, with its margin.");
      return;
    }
    add("", "Parts that hold it as it is, the nearest first:");
    TextTable table = new TextTable(SlimTables.near(report.near()), style.columns());
    lines.addAll(table.title());
    lines.addAll(table.rows());
  }

  private void addVerdict(Assessment row) {
    String word = Style.word(row.verdict().kind());
    String reason = Printable.of(row.verdict().reason()) + ".";
    List<String> wrapped = Paragraph.lines(word + ": ", reason, style.columns());
    lines.add(style.verdict(row.verdict().kind(), 0) + wrapped.get(0).substring(word.length()));
    lines.addAll(wrapped.subList(1, wrapped.size()));
  }

  private void add(String head, String text) {
    lines.addAll(Paragraph.lines(head, text, style.columns()));
  }
}
