package dev.ullage.report;

import dev.ullage.emit.Budget;
import dev.ullage.emit.Origin;
import dev.ullage.emit.WriteResult;
import dev.ullage.input.Printable;
import dev.ullage.loop.Bring;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Part;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What `emit` puts into the folder about the estimate, and what it says afterwards. */
public final class EmitReport {
  private EmitReport() {}

  /**
   * The estimate as the folder's README and `ullage.json` have it; zeros where nothing is known.
   */
  public static Budget budget(Assessment assessment) {
    String grade = Style.word(assessment.grade());
    return assessment
        .estimate()
        .map(estimate -> budget(grade, estimate))
        .orElseGet(
            () -> new Budget(grade, new Origin.Figures(0, 0, 0, 0, 0), List.of(), List.of()));
  }

  private static Budget budget(String grade, Estimate estimate) {
    Estimate.Interval flash = estimate.flash();
    return new Budget(
        grade,
        new Origin.Figures(
            flash.low(), flash.likely(), flash.high(), estimate.staticRam(), estimate.stack()),
        estimate.modules().stream()
            .map(part -> new Budget.Part(part.name(), part.flash(), part.ram()))
            .toList(),
        estimate.stackPath().stream()
            .map(step -> new Budget.Step(step.function(), step.bytes()))
            .toList());
  }

  /**
   * What was done, every line ended.
   *
   * @param folder as the user named it
   * @param written empty where there was nothing to write
   */
  public static String text(
      String folder, Assessment assessment, Optional<WriteResult> written, Style style) {
    List<String> lines = new ArrayList<>();
    String verdict = Style.word(assessment.verdict().kind());
    String reason = Printable.of(assessment.verdict().reason()) + ".";
    lines.addAll(Paragraph.lines(verdict + ": ", reason, style.columns()));
    shortage(assessment).ifPresent(lines::add);
    written.ifPresentOrElse(
        result -> addFiles(lines, Printable.of(folder), result),
        () -> lines.add("Nothing was written."));
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  /** In bytes, as the verdict counts: without the margin. */
  private static Optional<String> shortage(Assessment assessment) {
    if (assessment.verdict().kind() != Verdict.Kind.OVER) {
      return Optional.empty();
    }
    Estimate need = assessment.estimate().orElseThrow();
    Bring bring = assessment.plan().orElseThrow().loop().bring();
    Part target = assessment.target();
    int capacity = target.flash().orElseThrow();
    int flash = need.flash().likely() + bring.flashBytes();
    int ram = need.staticRam() + need.stack() + bring.ramBytes() + bring.stackBytes();
    String missing =
        Stream.of(beyond(flash, capacity, "flash"), beyond(ram, target.ram(), "RAM"))
            .flatMap(Optional::stream)
            .collect(Collectors.joining(" and "));
    return Optional.of("It does not fit the " + target.title() + ": " + missing + " too much.");
  }

  private static Optional<String> beyond(int need, int capacity, String memory) {
    return Optional.of(need - capacity + " B of " + memory).filter(words -> need > capacity);
  }

  private static void addFiles(List<String> lines, String folder, WriteResult result) {
    lines.add(
        (folder + ": " + (result.written().size() + result.created().size()) + " files written, ")
            + (result.unchanged().size() + " unchanged, ")
            + (result.kept().size() + result.left().size() + " kept."));
    if (!result.created().isEmpty()) {
      lines.add("README.md in it says how to build, check, load and try it.");
    }
    result.removed().forEach(path -> lines.add(path + " removed, for it is no longer emitted"));
    for (WriteResult.Kept kept : result.kept()) {
      lines.add(kept.path() + " kept as you changed it; the new text is in " + kept.newPath());
    }
    for (String path : result.left()) {
      lines.add(path + " kept as you changed it, though it is no longer emitted");
    }
  }
}
