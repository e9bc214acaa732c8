package dev.ullage.report;

import dev.ullage.firmware.Plans;
import dev.ullage.loop.Loop;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.ListedPart;
import dev.ullage.target.Part;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * What a loop comes to on many targets.
 *
 * @param loop its name, as the user wrote it
 * @param rows in the order in which they are printed
 * @param measuredWith the compilers and flags that the cost tables come from, a sentence part each
 * @param leftOut how many parts without a port are not among the rows
 */
public record Survey(String loop, List<Assessment> rows, List<String> measuredWith, int leftOut) {

  public Survey {
    rows = List.copyOf(rows);
    measuredWith = List.copyOf(measuredWith);
  }

  /** A survey that leaves nothing out. */
  Survey(String loop, List<Assessment> rows, List<String> measuredWith) {
    this(loop, rows, measuredWith, 0);
  }

  /** Holds a loop against parts, several at a time. */
  public static Survey of(Loop loop, List<? extends Part> parts, CostTables costs) {
    Sizing sizing = new Sizing(costs);
    Plans plans = new Plans(loop);
    Function<Part, Assessment> assess =
        part ->
            part instanceof Target target
                ? Assessment.of(plans.on(target), target, sizing)
                : Assessment.of(loop, (ListedPart) part);
    // One by itself first: what several threads use for the first time at once, Java makes for
    // each of them.
    parts.stream().limit(1).forEach(assess::apply);
    List<Assessment> rows = parts.parallelStream().<Assessment>map(assess).toList();
    return new Survey(loop.name(), rows, costs.measuredWith());
  }

  /** The same rows in another order. */
  public Survey sorted(SurveyOrder order) {
    return new Survey(loop, rows.stream().sorted(order.order()).toList(), measuredWith, leftOut);
  }

  /** The rows that pass. */
  public Survey only(Predicate<Assessment> filter) {
    return new Survey(loop, rows.stream().filter(filter).toList(), measuredWith, leftOut);
  }

  /** The same rows, and how many parts without a port are not among them. */
  public Survey leavingOut(int parts) {
    return new Survey(loop, rows, measuredWith, parts);
  }

  /** What is not among the rows; empty if everything is. */
  Optional<String> leftOutSentence() {
    boolean one = leftOut == 1;
    String parts = one ? "1 more part is" : leftOut + " more parts are";
    String shows = "` shows " + (one ? "it." : "them.");
    return Optional.of(parts + " listed only, with no port yet: `--listed" + shows)
        .filter(any -> leftOut > 0);
  }

  /** What the flash is of parts that have none of their own; empty if there are none. */
  Optional<String> besideSentence() {
    List<String> names =
        rows.stream()
            .map(Assessment::target)
            .filter(part -> part instanceof Target target && target.flashBeside())
            .map(Part::name)
            .toList();
    return Optional.of(
            "Program memory is a chip beside the part: " + String.join(", ", names) + ".")
        .filter(any -> !names.isEmpty());
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
