package dev.ullage.proof;

import static dev.ullage.proof.Distribution.shown;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Turns the rows of the ledger into the tables that are published. */
final class Figures {
  /** Kind, core, loop and target, flash linked, low, likely, high, RAM and stack error. */
  static final String PROGRAMS = "programs";

  /** Core, module, flash linked, flash error, RAM error. */
  static final String MODULES = "modules";

  /** Sample, part, bus driver, what happens, stack seen, stack bound. */
  static final String SIMULATED = "simulated";

  /** What was counted, and the figure. */
  static final String EMITTED = "emitted";

  /** What the replay was compared with, loops, readings, changes of the alarm, what differed. */
  static final String REPLAYED = "replayed";

  /** What is done in a survey's page, how many parts it has, the times that it took in ms. */
  static final String PAGE = "page";

  private Figures() {}

  /**
   * All tables.
   *
   * @param ledger gives the rows of a topic
   */
  static List<FigureTable> all(Function<String, List<List<String>>> ledger) {
    return List.of(
        programs(ledger.apply(PROGRAMS)),
        modules(ledger.apply(MODULES)),
        simulated(ledger.apply(SIMULATED)),
        new FigureTable(
            "The same readings through the replay and through emitted code",
            FigureTable.columns(
                "replay beside | random loops | readings | changes of the alarm | that differ"),
            ledger.apply(REPLAYED)),
        new FigureTable(
            "Emitted code of all samples",
            FigureTable.columns("what | figure"),
            ledger.apply(EMITTED)),
        page(ledger.apply(PAGE)));
  }

  static FigureTable page(List<List<String>> rows) {
    return grouped(
        "A survey's page in a headless Chromium",
        "what, with its layout | parts | times | median ms | worst ms",
        rows,
        2,
        Figures::ofPage);
  }

  private static List<String> ofPage(List<String> key, List<List<String>> rows) {
    Distribution times = of(rows, row -> number(row, 2));
    return cells(key, rows.size(), whole(times.median()), whole(times.worst()));
  }

  static FigureTable programs(List<List<String>> rows) {
    return grouped(
        "Estimates against the linker, by core",
        "loops | core | programs | flash error: median % | 95 % within % | worst % | worst bytes"
            + " | interval: median width % | misses | static RAM not exact | stack not exact"
            + " | stack too low",
        rows,
        2,
        Figures::ofCore);
  }

  private static List<String> ofCore(List<String> key, List<List<String>> rows) {
    Distribution percent = of(rows, row -> 100 * Math.abs(flashError(row)) / number(row, 3));
    return cells(
        key,
        rows.size(),
        shown(percent.median()),
        shown(percent.at(0.95)),
        shown(percent.worst()),
        whole(of(rows, row -> Math.abs(flashError(row))).worst()),
        shown(of(rows, Figures::width).median()),
        count(rows, row -> number(row, 3) < number(row, 4) || number(row, 6) < number(row, 3)),
        count(rows, row -> number(row, 7) != 0),
        count(rows, row -> number(row, 8) != 0),
        count(rows, row -> number(row, 8) < 0));
  }

  private static double flashError(List<String> program) {
    return number(program, 5) - number(program, 3);
  }

  private static double width(List<String> program) {
    return 100 * (number(program, 6) - number(program, 4)) / number(program, 3);
  }

  static FigureTable modules(List<List<String>> rows) {
    List<List<String>> byModule =
        rows.stream().map(row -> List.of(row.get(1), row.get(2), row.get(3), row.get(4))).toList();
    return grouped(
        "Estimates against the linker, by module",
        "module | programs | flash: median bytes | exact in % of programs | worst bytes | worst %"
            + " | static RAM not exact",
        byModule,
        1,
        Figures::ofModule);
  }

  private static List<String> ofModule(List<String> key, List<List<String>> rows) {
    Distribution error = of(rows, row -> Math.abs(number(row, 2)));
    return cells(
        key,
        rows.size(),
        whole(of(rows, row -> number(row, 1)).median()),
        shown(100.0 * count(rows, row -> number(row, 2) == 0) / rows.size()),
        whole(error.worst()),
        shown(
            of(rows, row -> 100 * Math.abs(number(row, 2)) / Math.max(1, number(row, 1))).worst()),
        count(rows, row -> number(row, 3) != 0));
  }

  static FigureTable simulated(List<List<String>> rows) {
    List<List<String>> byPart =
        rows.stream().map(row -> List.of(row.get(1), row.get(2), row.get(4), row.get(5))).toList();
    return grouped(
        "Stack in simulation: how far the bound is above what was seen",
        "part | bus driver | cases | median bytes | most bytes | bound too low",
        byPart,
        2,
        Figures::ofPart);
  }

  private static List<String> ofPart(List<String> key, List<List<String>> rows) {
    Distribution slack = of(rows, row -> number(row, 3) - number(row, 2));
    return cells(
        key,
        rows.size(),
        whole(slack.median()),
        whole(slack.worst()),
        count(rows, row -> number(row, 3) < number(row, 2)));
  }

  /** A row of the table for all rows whose first cells are the same. */
  private static FigureTable grouped(
      String title,
      String columns,
      List<List<String>> rows,
      int keyCells,
      BiFunction<List<String>, List<List<String>>, List<String>> summary) {
    Map<String, List<List<String>>> groups =
        rows.stream()
            .collect(
                Collectors.groupingBy(
                    row -> String.join("\t", row.subList(0, keyCells)),
                    TreeMap::new,
                    Collectors.toList()));
    List<List<String>> lines =
        groups.values().stream()
            .map(group -> summary.apply(group.get(0).subList(0, keyCells), group))
            .toList();
    return new FigureTable(title, FigureTable.columns(columns), lines);
  }

  private static Distribution of(List<List<String>> rows, ToDoubleFunction<List<String>> figure) {
    return Distribution.of(rows.stream().mapToDouble(figure));
  }

  private static long count(List<List<String>> rows, Predicate<List<String>> what) {
    return rows.stream().filter(what).count();
  }

  private static double number(List<String> row, int cell) {
    return Double.parseDouble(row.get(cell));
  }

  private static String whole(double figure) {
    return Long.toString(Math.round(figure));
  }

  private static List<String> cells(List<String> key, Object... figures) {
    return Stream.concat(key.stream(), Ledger.cells(figures).stream()).toList();
  }
}
