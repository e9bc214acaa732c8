package dev.ullage.report;

import dev.ullage.emit.Budget;
import dev.ullage.emit.Origin;
import dev.ullage.emit.WriteResult;
import dev.ullage.input.Printable;
import dev.ullage.sizing.Estimate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

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
    written.ifPresentOrElse(
        result -> addFiles(lines, Printable.of(folder), result),
        () -> lines.add("Nothing was written."));
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private static void addFiles(List<String> lines, String folder, WriteResult result) {
    lines.add(
        folder
            + ": "
            + (result.written().size() + result.created().size())
            + " files written, "
            + result.unchanged().size()
            + " as they were. `make` there builds the firmware.");
    result.removed().forEach(path -> lines.add("Removed, for it is no longer emitted: " + path));
    result
        .kept()
        .forEach(
            kept ->
                lines.add(
                    "Yours, and left alone: " + kept.path() + "; new text: " + kept.newPath()));
    result
        .left()
        .forEach(path -> lines.add("No longer emitted, but changed by you, so it stays: " + path));
  }
}
