package dev.ullage.report;

import dev.ullage.firmware.Plans;
import dev.ullage.loop.Loop;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.util.List;
import java.util.function.Predicate;

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

  /** Holds a loop against targets, several at a time. */
  public static Survey of(Loop loop, List<Target> targets, CostTables costs) {
    Sizing sizing = new Sizing(costs);
    Plans plans = new Plans(loop);
    List<Assessment> rows =
        targets.parallelStream()
            .map(target -> Assessment.of(plans.on(target), target, sizing))
            .toList();
    return new Survey(loop.name(), rows, costs.measuredWith());
  }

  /** The same rows in another order. */
  public Survey sorted(SurveyOrder order) {
    return new Survey(loop, rows.stream().sorted(order.order()).toList(), measuredWith);
  }

  /** The rows that pass. */
  public Survey only(Predicate<Assessment> filter) {
    return new Survey(loop, rows.stream().filter(filter).toList(), measuredWith);
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
