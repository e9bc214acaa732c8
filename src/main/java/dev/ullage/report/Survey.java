package dev.ullage.report;

import dev.ullage.sizing.Verdict;
import java.util.List;

/**
 * What a loop comes to on many targets.
 *
 * @param loop its name, as the user wrote it
 * @param rows in the order in which they are printed
 * @param measuredWith the compilers and flags that the cost tables come from, a sentence part each
 */
public record Survey(String loop, List<Assessment> rows, List<String> measuredWith) {

  public Survey {
    rows = List.copyOf(rows);
    measuredWith = List.copyOf(measuredWith);
  }

  /** Targets with this verdict. */
  public long count(Verdict.Kind kind) {
    return rows.stream().filter(row -> row.verdict().kind() == kind).count();
  }

  /** The survey as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> new SurveyText(this, style).text();
      case JSON -> SurveyTables.json(this);
      case CSV -> Csv.of(SurveyTables.fields(this));
      case MD -> SurveyTables.markdown(this);
    };
  }
}
