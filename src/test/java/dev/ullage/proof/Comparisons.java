package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.sizing.Sizing;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;

/** Many comparisons, and what was promised of them. */
record Comparisons(List<Comparison> all) {

  /** Builds on every processor. */
  static Comparisons of(List<Firmware> programs, Sizing sizing) {
    List<Callable<Comparison>> builds = new ArrayList<>();
    programs.forEach(each -> builds.add(() -> Comparison.of(each, sizing)));
    ExecutorService workers =
        Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
    try {
      List<Comparison> all = new ArrayList<>();
      for (Future<Comparison> build : workers.invokeAll(builds)) {
        all.add(build.get());
      }
      return new Comparisons(all);
    } catch (InterruptedException | ExecutionException e) {
      throw new AssertionError(e.getCause() == null ? e : e.getCause());
    } finally {
      workers.shutdownNow();
    }
  }

  /** For every core: static RAM to the byte; flash inside the interval and near the middle. */
  void holdWhatIsPromised() {
    assertAll(byCore().entrySet().stream().map(core -> () -> core.getValue().hold(core.getKey())));
  }

  private Map<String, Comparisons> byCore() {
    return all.stream()
        .collect(
            Collectors.groupingBy(
                Comparison::core,
                TreeMap::new,
                Collectors.collectingAndThen(Collectors.toList(), Comparisons::new)));
  }

  private void hold(String core) {
    Distribution error = of(Comparison::flashErrorPercent);
    Distribution width = of(Comparison::intervalPercent);
    assertAll(
        core,
        () -> assertEquals(List.of(), wrong(each -> each.ramError() != 0), "static RAM"),
        () -> assertEquals(List.of(), wrong(each -> each.stackError() < 0), "stack too low"),
        () -> assertEquals(List.of(), wrong(each -> !each.intervalHolds()), "flash interval"),
        () -> assertTrue(error.median() <= 0.2, () -> "median flash error " + error.median()),
        () -> assertTrue(error.at(0.95) <= 0.8, () -> "95 % flash error " + error.at(0.95)),
        () -> assertTrue(error.worst() <= 2, () -> "worst flash error " + error.worst()),
        () -> assertTrue(width.median() <= 3, () -> "median width " + width.median()));
  }

  private Distribution of(ToDoubleFunction<Comparison> figure) {
    return Distribution.of(all.stream().mapToDouble(figure));
  }

  private List<String> wrong(Predicate<Comparison> what) {
    return all.stream().filter(what).map(Comparison::toString).toList();
  }

  /** The error by core and by module, as it is published. */
  String tables(String kind) {
    return Figures.programs(programRows(kind)).markdown()
        + "\n"
        + Figures.modules(moduleRows()).markdown();
  }

  /** Puts every program and every module of it into the ledger. */
  void record(String kind) {
    programRows(kind).forEach(row -> Ledger.row(Figures.PROGRAMS, row.toArray()));
    moduleRows().forEach(row -> Ledger.row(Figures.MODULES, row.toArray()));
  }

  private List<List<String>> programRows(String kind) {
    return all.stream()
        .map(
            each ->
                Ledger.cells(
                    kind,
                    each.core(),
                    each.what(),
                    each.linked().flashBytes(),
                    each.estimate().flash().low(),
                    each.estimate().flash().likely(),
                    each.estimate().flash().high(),
                    each.ramError(),
                    each.stackError()))
        .toList();
  }

  private List<List<String>> moduleRows() {
    return all.stream()
        .flatMap(
            each ->
                each.shares().stream()
                    .map(
                        share ->
                            Ledger.cells(
                                each.core(),
                                share.module(),
                                share.linked().flash(),
                                share.flashError(),
                                share.ramError())))
        .toList();
  }
}
