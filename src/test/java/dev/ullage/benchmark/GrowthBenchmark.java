package dev.ullage.benchmark;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Loops;
import dev.ullage.report.Survey;
import dev.ullage.sizing.CostTables;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.Supplier;

/**
 * How time and memory of surveys grow with parts, and with loops: the columns by the part and by
 * the loop stay level where they grow as those do. Further parts are those of the catalogue with
 * other memories.
 */
final class GrowthBenchmark {
  private static final int[] PARTS = {500, 1_000, 2_000, 5_000, 10_000, 20_000, 50_000, 100_000};
  private static final int[] LOOPS = {10, 20, 50, 100, 200, 500};
  private static final int ROUNDS = 5;
  private static final int BAR = 40;

  private final Loop loop =
      LoopReader.read(Path.of("generated-samples/cold-store/cold-store.yaml"));
  private final List<Loop> loops = Loops.random(1, LOOPS[LOOPS.length - 1]);
  private final List<Target> catalogue = Catalogue.load().targets();
  private final CostTables costs = CostTables.packed();

  /** What one size came to: the best of the rounds, and what the result holds on to. */
  private record Sample(int size, double ms, double mebibytes) {}

  private GrowthBenchmark() {}

  /** Prints a table with bars for each. */
  public static void main(String[] args) {
    GrowthBenchmark benchmark = new GrowthBenchmark();
    benchmark.parts();
    benchmark.loops();
  }

  private void parts() {
    List<Sample> samples = new ArrayList<>();
    for (int size : PARTS) {
      List<Target> parts = parts(size);
      samples.add(sample(size, () -> Survey.of(loop, parts, costs)));
    }
    print("parts", samples);
  }

  private void loops() {
    List<Sample> samples = new ArrayList<>();
    for (int size : LOOPS) {
      samples.add(
          sample(
              size,
              () ->
                  loops.subList(0, size).stream()
                      .map(each -> Survey.of(each, catalogue, costs))
                      .toList()));
    }
    print("loops", samples);
  }

  private List<Target> parts(int size) {
    Random random = new Random(size);
    List<Target> parts = new ArrayList<>(size);
    for (int i = 0; i < size; i++) {
      Target like = catalogue.get(i % catalogue.size());
      parts.add(
          new Target(
              "part" + i,
              "Part " + i,
              like.family(),
              like.toolchain(),
              like.stackPointerBits(),
              like.flashStart(),
              1024 << random.nextInt(8),
              like.flashBeside(),
              64 << random.nextInt(8),
              like.ramStart(),
              like.eepromBytes(),
              like.vectors(),
              like.vectorBytes(),
              like.clock(),
              like.packages(),
              like.sources()));
    }
    return parts;
  }

  private static Sample sample(int size, Supplier<Object> work) {
    double best = Double.MAX_VALUE;
    double mebibytes = 0;
    for (int round = 0; round < ROUNDS; round++) {
      double before = usedMebibytes();
      long start = System.nanoTime();
      Object result = work.get();
      best = Math.min(best, (System.nanoTime() - start) / 1e6);
      mebibytes = usedMebibytes() - before;
      java.lang.ref.Reference.reachabilityFence(result);
    }
    return new Sample(size, best, mebibytes);
  }

  private static double usedMebibytes() {
    System.gc();
    Runtime runtime = Runtime.getRuntime();
    return (runtime.totalMemory() - runtime.freeMemory()) / (1024.0 * 1024.0);
  }

  private static void print(String what, List<Sample> samples) {
    double longest = samples.get(samples.size() - 1).ms();
    System.out.printf("%8s %9s %9s %9s %9s%n", what, "ms", "us each", "MiB", "B each");
    for (Sample each : samples) {
      System.out.printf(
          "%8d %9.1f %9.2f %9.1f %9.0f %s%n",
          each.size(),
          each.ms(),
          1000 * each.ms() / each.size(),
          each.mebibytes(),
          1024 * 1024 * each.mebibytes() / each.size(),
          "*".repeat((int) Math.round(BAR * each.ms() / longest)));
    }
    System.out.println();
  }
}
