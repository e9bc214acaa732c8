package dev.ullage.report;

import dev.ullage.firmware.Firmware;
import dev.ullage.input.Printable;
import dev.ullage.report.MemoryBar.Piece;
import dev.ullage.sizing.Estimate;
import java.util.List;

/** The budget for a person: the answer first, then each byte of it, then what was chosen. */
final class BudgetText {
  private final Budget budget;
  private final TextPage page;

  BudgetText(Budget budget, Style style) {
    this.budget = budget;
    this.page = new TextPage(style);
  }

  String text() {
    Assessment row = budget.assessment();
    String part = row.target().title() + " (" + row.target().core() + ")";
    page.prose("", Printable.of(budget.loop().name()) + " on " + part + ", in bytes:");
    page.gap();
    page.verdict(row.verdict());
    row.estimate().ifPresent(this::addEstimate);
    row.plan().ifPresent(this::addChoices);
    return page.text();
  }

  private void addEstimate(Estimate estimate) {
    page.section(BudgetTables.memories(budget, estimate));
    addBars(estimate);
    page.section(BudgetTables.modules(estimate));
    if (!estimate.buffers().isEmpty()) {
      page.section(BudgetTables.buffers(estimate));
    }
    page.section(BudgetTables.stackPath(estimate));
    page.gap();
    page.prose("", meaning(estimate.grade()));
  }

  private void addBars(Estimate estimate) {
    int unsure = estimate.flash().high() - estimate.flash().low();
    page.gap();
    page.bar(
        "flash ",
        new MemoryBar(
            budget.assessment().target().flash().orElse(0),
            List.of(
                new Piece('#', estimate.flash().low()),
                new Piece('?', unsure),
                new Piece('y', budget.loop().bring().flashBytes()),
                new Piece('m', budget.flashMargin()))));
    page.bar(
        "RAM   ",
        new MemoryBar(
            budget.assessment().target().ram(),
            List.of(
                new Piece('#', estimate.staticRam()),
                new Piece('v', estimate.stack()),
                new Piece('y', budget.broughtRam()),
                new Piece('m', budget.loop().margin().ramBytes()))));
    page.prose(
        "      ", "# code or fixed, ? perhaps, v stack, y yours, m margin, . left, ! too much");
  }

  private static String meaning(Estimate.Grade grade) {
    String known =
        switch (grade) {
          case MEASURED -> "measured on this core";
          case MODELLED -> "modelled from a sibling core";
          case LISTED -> "limits of the part only";
        };
    return "Grade: "
        + known
        + ". Flash by module is the likely figure, the interval holds what the linker will say;"
        + " fixed RAM is exact; stack is a bound, with the deepest interrupt on top.";
  }

  private void addChoices(Firmware plan) {
    page.gap();
    for (List<String> choice : BudgetTables.choices(plan).rows()) {
      page.prose("%-6s ".formatted(choice.get(0)), Printable.of(choice.get(1)) + ".");
    }
  }
}
