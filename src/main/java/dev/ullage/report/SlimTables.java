package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.sizing.Headroom;
import dev.ullage.slim.Saving;
import dev.ullage.slim.SlimSet;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Sets of changes, and parts that hold a loop unchanged, as tables. */
final class SlimTables {
  private SlimTables() {}

  /** What each change saves alone, what all save together, and what is then left. */
  static Table changes(SlimSet set, Assessment slimmed, int widest) {
    List<List<String>> rows = new ArrayList<>();
    boolean known = set.together().isPresent();
    for (SlimSet.Step step : set.steps()) {
      addRows(rows, step, known, widest);
    }
    if (set.steps().size() > 1 && known) {
      rows.add(row("saved together", set.together(), known));
    }
    Optional<Headroom> left = slimmed.headroom();
    rows.add(
        List.of(
            "then left",
            left.map(h -> "" + h.flash()).orElse("-"),
            left.map(h -> "" + h.ram()).orElse("-"),
            ""));
    return new Table(
        List.of(
            left(known ? "change, and bytes that it saves" : "change"),
            right("flash"),
            right("RAM"),
            right(known ? "stack" : "")),
        rows);
  }

  /** {@code average: moving 8 -> moving 4}, in two rows where it is long. */
  private static void addRows(
      List<List<String>> rows, SlimSet.Step step, boolean known, int widest) {
    String from = step.change().key() + ": " + step.change().from();
    String to = " -> " + step.change().to();
    if (from.length() + to.length() > widest) {
      rows.add(List.of(from, "", "", ""));
      rows.add(row(" " + to, step.alone(), known));
    } else {
      rows.add(row(from + to, step.alone(), known));
    }
  }

  /**
   * @param known false where the loop as it is has no plan, so that nothing can be said to be saved
   */
  private static List<String> row(String name, Optional<Saving> saving, boolean known) {
    return Stream.concat(Stream.of(name), cells(saving, known ? "-" : "")).toList();
  }

  private static Stream<String> cells(Optional<Saving> saving, String otherwise) {
    return saving
        .map(s -> Stream.of("" + s.flash(), "" + s.ram(), "" + s.stack()))
        .orElseGet(() -> Stream.of(otherwise, otherwise, otherwise));
  }

  static Table near(List<NearPart> near) {
    return new Table(
        List.of(
            left("target"),
            left("in common"),
            right("flash"),
            right("left"),
            right("RAM"),
            right("left")),
        near.stream().map(SlimTables::nearRow).toList());
  }

  private static List<String> nearRow(NearPart part) {
    Optional<Headroom> left = part.row().headroom();
    return List.of(
        part.row().target().name(),
        part.nearness(),
        Facts.bytes(part.row().target().flash()),
        left.map(h -> "" + h.flash()).orElse("-"),
        "" + part.row().target().ram(),
        left.map(h -> "" + h.ram()).orElse("-"));
  }

  /** A row for each change of each set. */
  static Table fields(SlimReport report) {
    List<List<String>> rows = new ArrayList<>();
    int number = 1;
    for (SlimSet set : report.slimming().sets()) {
      for (SlimSet.Step step : set.steps()) {
        rows.add(fields(number, step));
      }
      number++;
    }
    return new Table(
        Stream.of(
                "set",
                "aspect",
                "key",
                "from",
                "to",
                "weight",
                "saves_flash",
                "saves_ram",
                "saves_stack",
                "loss")
            .map(Table.Column::left)
            .toList(),
        rows);
  }

  private static List<String> fields(int set, SlimSet.Step step) {
    Stream<String> saves = cells(step.alone(), "");
    Stream<String> change =
        Stream.of(
            "" + set,
            step.change().aspect().word(),
            step.change().key(),
            step.change().from(),
            step.change().to(),
            "" + step.change().weight());
    return Stream.of(change, saves, Stream.of(step.loss())).flatMap(cells -> cells).toList();
  }

  static String markdown(SlimReport report) {
    Assessment row = report.asItIs();
    StringBuilder page = new StringBuilder("# ");
    page.append(Markdown.text(report.slimming().loop().name()));
    page.append(" on ").append(row.target().title());
    page.append("\n\n**").append(Style.word(row.verdict().kind())).append("**: ");
    page.append(Markdown.text(row.verdict().reason())).append(".\n\n");
    page.append(Markdown.text(report.answer())).append('\n');
    int number = 1;
    for (SlimSet set : report.slimming().sets()) {
      page.append("\n## Set ").append(number).append(", weight ").append(set.weight());
      page.append("\n\n");
      page.append(Markdown.table(changes(set, report.slimmed().get(number - 1), Integer.MAX_VALUE)))
          .append('\n');
      page.append(losses(set));
      number++;
    }
    if (!report.near().isEmpty()) {
      page.append("\n## Parts that hold it as it is\n\n");
      page.append(Markdown.table(near(report.near())));
    }
    return page.toString();
  }

  private static String losses(SlimSet set) {
    return set.steps().stream()
        .map(step -> "- " + Markdown.text(step.loss()) + ".\n")
        .collect(Collectors.joining());
  }
}
