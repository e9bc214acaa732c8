package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.firmware.Firmware;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** The parts that a budget is made of, as tables. */
final class BudgetTables {
  private BudgetTables() {}

  /** Flash and fixed RAM by module; they add up to the likely flash and the exact RAM. */
  static Table modules(Estimate estimate) {
    List<List<String>> rows = new ArrayList<>();
    estimate
        .modules()
        .forEach(part -> rows.add(List.of(part.name(), "" + part.flash(), "" + part.ram())));
    rows.add(List.of("together", "" + estimate.flash().likely(), "" + estimate.staticRam()));
    return new Table(List.of(left("module"), right("flash"), right("RAM")), rows);
  }

  /** What the plan gives a size to. */
  static Table buffers(Estimate estimate) {
    return new Table(
        List.of(left("buffer"), right("RAM"), left("module"), left("in the C text")),
        estimate.buffers().stream()
            .map(b -> List.of(b.name(), "" + b.bytes(), b.module(), b.symbol()))
            .toList());
  }

  /** From main to the deepest call, and how deep it is there. */
  static Table stackPath(Estimate estimate) {
    List<List<String>> rows = new ArrayList<>();
    int depth = 0;
    for (Estimate.Step step : estimate.stackPath()) {
      depth += step.bytes();
      rows.add(List.of(step.function(), "" + step.bytes(), "" + depth));
    }
    return new Table(List.of(left("deepest path"), right("stack"), right("so far")), rows);
  }

  /** Modules, buffers and the stack path below each other, told apart by the first column. */
  static Table parts(Budget budget) {
    List<List<String>> rows = new ArrayList<>();
    budget.assessment().estimate().ifPresent(estimate -> addParts(rows, estimate));
    return new Table(
        List.of(left("part"), left("name"), left("module"), left("flash"), left("ram")), rows);
  }

  private static void addParts(List<List<String>> rows, Estimate estimate) {
    estimate
        .modules()
        .forEach(
            p -> rows.add(List.of("module", p.name(), p.name(), "" + p.flash(), "" + p.ram())));
    estimate
        .buffers()
        .forEach(b -> rows.add(List.of("buffer", b.name(), b.module(), "0", "" + b.bytes())));
    estimate
        .stackPath()
        .forEach(s -> rows.add(List.of("stack", s.function(), "", "0", "" + s.bytes())));
  }

  /** What is used, kept free and left of the two memories. */
  static Table memories(Budget budget, Estimate estimate) {
    Assessment row = budget.assessment();
    Optional<Headroom> left = row.headroom();
    return new Table(
        List.of(
            left(""), right("needed"), right("yours"), right("margin"), right("of"), right("left")),
        List.of(
            List.of(
                "flash",
                estimate.flash().low() + " to " + estimate.flash().high(),
                "" + budget.loop().bring().flashBytes(),
                "" + budget.flashMargin(),
                Facts.bytes(row.target().flash()),
                left.map(h -> "" + h.flash()).orElse("-")),
            List.of(
                "RAM",
                estimate.staticRam() + " fixed + " + estimate.stack() + " stack",
                "" + budget.broughtRam(),
                "" + budget.loop().margin().ramBytes(),
                "" + row.target().ram(),
                left.map(h -> "" + h.ram()).orElse("-"))));
  }

  static String markdown(Budget budget) {
    Assessment row = budget.assessment();
    StringBuilder page = new StringBuilder("# ");
    page.append(Markdown.text(budget.loop().name())).append(" on ").append(row.target().title());
    page.append("\n\n**").append(Style.word(row.verdict().kind())).append("**: ");
    page.append(Markdown.text(row.verdict().reason())).append(".\n");
    row.estimate()
        .ifPresent(
            estimate -> {
              page.append('\n').append(Markdown.table(memories(budget, estimate)));
              page.append('\n').append(Markdown.table(modules(estimate)));
              page.append('\n').append(Markdown.table(buffers(estimate)));
              page.append('\n').append(Markdown.table(stackPath(estimate)));
            });
    row.plan().ifPresent(plan -> addChoices(page, plan));
    return page.toString();
  }

  private static void addChoices(StringBuilder page, Firmware plan) {
    page.append('\n').append(Markdown.table(choices(plan)));
  }

  /** What was chosen where the loop file leaves it open, and what the user must know of it. */
  static Table choices(Firmware plan) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("bus", Style.word(plan.bus().driver()) + ": " + plan.bus().why()));
    rows.add(List.of("clock", plan.clock().toString()));
    rows.add(
        List.of(
            "pins",
            plan.pins().entrySet().stream()
                .map(pin -> Style.word(pin.getKey()) + " " + pin.getValue().name())
                .collect(Collectors.joining(", "))));
    plan.notes().forEach(note -> rows.add(List.of("note", note)));
    return new Table(List.of(left("chosen"), left("")), rows);
  }
}
