package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** Many comparisons, and what was promised of them. */
record Comparisons(List<Comparison> all) {

  /** Builds on every processor. */
  static Comparisons of(List<Callable<Comparison>> builds) {
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

  /** Static RAM and stack to the byte; flash inside the interval and near the middle. */
  void holdWhatIsPromised() {
    assertAll(
        () -> assertEquals(List.of(), wrong(each -> each.ramError() != 0), "static RAM"),
        () -> assertEquals(List.of(), wrong(each -> each.stackError() < 0), "stack too low"),
        () -> assertEquals(List.of(), wrong(each -> !each.intervalHolds()), "flash interval"),
        () -> assertTrue(errorAt(0.5) <= 0.2, () -> "median flash error " + errorAt(0.5)),
        () -> assertTrue(errorAt(0.95) <= 0.8, () -> "95 % flash error " + errorAt(0.95)),
        () -> assertTrue(errorAt(1) <= 2, () -> "worst flash error " + errorAt(1)),
        () -> assertTrue(width(0.5) <= 3, () -> "median width " + width(0.5)));
  }

  /** The error distribution, for people. */
  String summary(String title) {
    Map<Integer, Integer> bytes = new TreeMap<>();
    all.forEach(each -> bytes.merge(each.flashError(), 1, Integer::sum));
    return String.format(
        Locale.ROOT,
        "%s: %d programs%n"
            + "  flash error: median %.2f %%, 95 %% within %.2f %%, worst %.2f %%;"
            + " by bytes (bytes=programs) %s%n"
            + "  interval: median width %.2f %%, misses %d; static RAM wrong %d;"
            + " stack not equal %d, too low %d",
        title,
        all.size(),
        errorAt(0.5),
        errorAt(0.95),
        errorAt(1),
        bytes,
        width(0.5),
        wrong(each -> !each.intervalHolds()).size(),
        wrong(each -> each.ramError() != 0).size(),
        wrong(each -> each.stackError() != 0).size(),
        wrong(each -> each.stackError() < 0).size());
  }

  private List<String> wrong(java.util.function.Predicate<Comparison> what) {
    return all.stream().filter(what).map(Comparison::toString).toList();
  }

  private double errorAt(double share) {
    return at(all.stream().map(Comparison::flashErrorPercent).sorted().toList(), share);
  }

  private double width(double share) {
    return at(all.stream().map(Comparison::intervalPercent).sorted().toList(), share);
  }

  private static double at(List<Double> sorted, double share) {
    return sorted.get((int) Math.ceil(share * sorted.size()) - 1);
  }
}
