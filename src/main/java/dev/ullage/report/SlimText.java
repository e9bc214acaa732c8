package dev.ullage.report;

import dev.ullage.input.Printable;
import dev.ullage.slim.SlimSet;
import dev.ullage.slim.Slimming.Outcome;

/** The way to make a loop fit, for a person: what is wrong, what to change, where else to go. */
final class SlimText {
  private static final int WIDEST_CHANGE = 54;

  private final SlimReport report;
  private final TextPage page;

  SlimText(SlimReport report, Style style) {
    this.report = report;
    this.page = new TextPage(style);
  }

  String text() {
    Assessment row = report.asItIs();
    String part = row.target().title() + " (" + row.target().core() + ")";
    page.prose("", Printable.of(report.slimming().loop().name()) + " on " + part + ", in bytes:");
    page.gap();
    page.verdict(row.verdict());
    page.gap();
    page.prose("", report.answer());
    addSets();
    if (report.slimming().outcome() != Outcome.FITS) {
      addNear();
    }
    return page.text();
  }

  private void addSets() {
    int number = 0;
    for (SlimSet set : report.slimming().sets()) {
      addSet(number + 1, set, report.slimmed().get(number));
      number++;
    }
    if (number > 0) {
      page.gap();
      page.prose("", report.search());
    }
  }

  private void addSet(int number, SlimSet set, Assessment slimmed) {
    page.gap();
    page.prose("", "Set " + number + ", weight " + set.weight() + ":");
    page.table("   ", SlimTables.changes(set, slimmed, WIDEST_CHANGE));
    for (SlimSet.Step step : set.steps()) {
      page.prose("   * ", Printable.of(step.loss()) + ".");
    }
  }

  private void addNear() {
    page.gap();
    if (report.near().isEmpty()) {
      page.prose("", "No part of the catalogue holds it as it is, with its margin.");
      return;
    }
    page.prose("", "Parts that hold it as it is, the nearest first:");
    page.table(SlimTables.near(report.near()));
  }
}
