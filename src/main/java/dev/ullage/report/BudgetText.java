package dev.ullage.report;

import dev.ullage.firmware.Firmware;
import dev.ullage.input.Printable;
import dev.ullage.report.MemoryBar.Piece;
import dev.ullage.sizing.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The budget for a person: the answer first, then each byte of it, then what was chosen. */
final class BudgetText {
  private final Budget budget;
  private final Style style;
  private final List<String> lines = new ArrayList<>();

  BudgetText(Budget budget, Style style) {
    this.budget = budget;
    this.style = style;
  }

  String text() {
    Assessment row = budget.assessment();
    String part = row.target().title() + " (" + row.target().core() + ")";
    add("", Printable.of(budget.loop().name()) + " on " + part + ", in bytes:");
    lines.add("");
    addVerdict(row);
    row.estimate().ifPresent(this::addEstimate);
    row.plan().ifPresent(this::addChoices);
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private void addVerdict(Assessment row) {
    String word = Style.word(row.verdict().kind());
    String reason = Printable.of(row.verdict().reason()) + ".";
    List<String> wrapped = Paragraph.lines(word + ": ", reason, style.columns());
    String painted = style.verdict(row.verdict().kind(), 0);
    lines.add(painted + wrapped.get(0).substring(word.length()));
    lines.addAll(wrapped.subList(1, wrapped.size()));
  }

  private void addEstimate(Estimate estimate) {
    add(BudgetTables.memories(budget, estimate));
    addBars(estimate);
    add(BudgetTables.modules(estimate));
    if (!estimate.buffers().isEmpty()) {
      add(BudgetTables.buffers(estimate));
    }
    add(BudgetTables.stackPath(estimate));
    lines.add("");
    add("", meaning(estimate.grade()));
  }

  private void addBars(Estimate estimate) {
    int unsure = estimate.flash().high() - estimate.flash().low();
    lines.add("");
    addBar(
        "flash ",
        new MemoryBar(
            budget.assessment().target().flash().orElse(0),
            List.of(
                new Piece('#', estimate.flash().low()),
                new Piece('?', unsure),
                new Piece('y', budget.loop().bring().flashBytes()),
                new Piece('m', budget.flashMargin()))));
    addBar(
        "RAM   ",
        new MemoryBar(
            budget.assessment().target().ram(),
            List.of(
                new Piece('#', estimate.staticRam()),
                new Piece('v', estimate.stack()),
                new Piece('y', budget.broughtRam()),
                new Piece('m', budget.loop().margin().ramBytes()))));
    add("      ", "# code or fixed, ? perhaps, v stack, y yours, m margin, . left, ! too much");
  }

  private void addBar(String name, MemoryBar bar) {
    lines.add(name + bar.draw(style.columns() - name.length()));
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
    lines.add("");
    for (List<String> choice : BudgetTables.choices(plan).rows()) {
      add("%-6s ".formatted(choice.get(0)), Printable.of(choice.get(1)) + ".");
    }
  }

  private void add(Table table) {
    lines.add("");
    TextTable text = new TextTable(table, style.columns());
    lines.addAll(text.title());
    lines.addAll(text.rows());
  }

  private void add(String head, String text) {
    lines.addAll(Paragraph.lines(head, text, style.columns()));
  }
}
