package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.input.Printable;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The survey for a person: a line for each target, then the reasons of those that do not fit (one
 * reason often holds for many targets), then what all the figures mean.
 */
final class SurveyText {
  /** From this width on the flash interval is shown whole, below it only its upper end. */
  private static final int WIDE = 100;

  private static final int VERDICT_WIDTH = 5;
  private static final int LIMIT_WIDTH = 7;
  private static final int FLASH_DIGITS = 5;
  private static final int RAM_DIGITS = 5;

  private final Survey survey;
  private final Style style;
  private final TextPage page;

  SurveyText(Survey survey, Style style) {
    this.survey = survey;
    this.style = style;
    this.page = new TextPage(style);
  }

  String text() {
    page.prose("", Printable.of(survey.loop()) + ", in bytes:");
    page.gap();
    if (survey.rows().isEmpty()) {
      page.prose("", "No part of the catalogue passes the filters.");
      return page.text();
    }
    addTable();
    addReasons();
    addSummary();
    return page.text();
  }

  private void addTable() {
    List<List<String>> cells = survey.rows().stream().map(this::cells).toList();
    int columns = style.columns() - VERDICT_WIDTH - 1;
    TextTable table = new TextTable(new Table(titles(), cells), columns);
    table.title().forEach(line -> page.line(" ".repeat(VERDICT_WIDTH + 1) + line));
    List<String> rows = table.rows();
    for (int i = 0; i < rows.size(); i++) {
      Verdict.Kind kind = survey.rows().get(i).verdict().kind();
      page.line(style.verdict(kind, VERDICT_WIDTH) + " " + rows.get(i));
    }
  }

  private List<Table.Column> titles() {
    return List.of(
        left("target"),
        right(isWide() ? "flash\nlow..high" : "flash\n<="),
        right("\nof"),
        right("RAM\nfixed+\nstack"),
        right("\nof"),
        right("flash\nleft"),
        right("RAM\nleft"),
        left("bus\ndriver"),
        left("limit"),
        left("grade"));
  }

  private List<String> cells(Assessment row) {
    return List.of(
        row.target().name(),
        row.estimate()
            .map(e -> isWide() ? e.flash().low() + ".." + e.flash().high() : "" + e.flash().high())
            .orElse("-"),
        Facts.capacity(row.target().flash()),
        row.estimate().map(e -> e.staticRam() + "+" + e.stack()).orElse("-"),
        Facts.capacity(OptionalInt.of(row.target().ram())),
        row.headroom().map(left -> Facts.left(left.flash(), FLASH_DIGITS)).orElse("-"),
        row.headroom().map(left -> Facts.left(left.ram(), RAM_DIGITS)).orElse("-"),
        row.busDriver().orElse("-"),
        shortened(row.verdict().limiting()),
        grade(row));
  }

  /** What vouches for the figures, where there are any. */
  private static String grade(Assessment row) {
    boolean ported = row.target() instanceof Target;
    return ported && row.estimate().isEmpty() ? "-" : Style.word(row.grade());
  }

  /** The reasons below the table have the whole word. */
  private static String shortened(String word) {
    return word.length() <= LIMIT_WIDTH ? word : word.substring(0, LIMIT_WIDTH - 1) + ".";
  }

  private boolean isWide() {
    return style.columns() >= WIDE;
  }

  private void addReasons() {
    Map<String, List<Assessment>> byReason = new LinkedHashMap<>();
    for (Assessment row : survey.rows()) {
      if (row.verdict().kind() != Verdict.Kind.FITS && !isOpen(row)) {
        String reason = Style.word(row.verdict().kind()) + " " + row.verdict().reason();
        byReason.computeIfAbsent(reason, any -> new ArrayList<>()).add(row);
      }
    }
    byReason.values().forEach(this::addReason);
  }

  /** All of these have the same reason, and the end says it. */
  private static boolean isOpen(Assessment row) {
    return row.isListedOnly() && row.mayHold();
  }

  private void addReason(List<Assessment> rows) {
    Verdict verdict = rows.get(0).verdict();
    String names = rows.stream().map(row -> row.target().name()).collect(Collectors.joining(", "));
    page.gap();
    page.prose("", Style.word(verdict.kind()) + " on " + names + ":");
    page.prose("  ", Printable.of(verdict.reason()) + ".");
  }

  private void addSummary() {
    page.gap();
    String counts =
        Stream.of(Verdict.Kind.values())
            .map(kind -> survey.count(kind) + " " + Style.word(kind))
            .collect(Collectors.joining(", "));
    page.prose(
        "",
        survey.rows().size()
            + (survey.rows().size() == 1 ? " target: " : " targets: ")
            + counts
            + ".");
    survey.leftOutSentence().ifPresent(sentence -> page.prose("", sentence));
    survey.besideSentence().ifPresent(sentence -> page.prose("", sentence));
    addOpen();
    page.prose(
        "",
        "Flash is an estimate that the linker's figure does not exceed; fixed RAM is exact; stack"
            + " is a bound, with the deepest interrupt on top. Left is what remains after the"
            + " margin. Grade `measured` is from a table of this core, `modelled` from a sibling"
            + " core's; `listed` means that only the limits of the part are known.");
    survey.measuredWith().forEach(with -> page.prose("", "Measured with " + with + "."));
  }

  private void addOpen() {
    long open = survey.rows().stream().filter(SurveyText::isOpen).count();
    if (open > 0) {
      page.prose(
          "",
          "Without a port yet: %d. Nothing rules them out, and no more is known.".formatted(open));
    }
  }
}
