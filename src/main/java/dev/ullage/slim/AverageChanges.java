package dev.ullage.slim;

import dev.ullage.loop.Average;
import dev.ullage.loop.Average.OverTime;
import dev.ullage.loop.Loop;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Other averages over time: shorter ones, ones that keep no window, and none. */
final class AverageChanges {
  private static final int PER_HALVING = 3;
  private static final int NO_WINDOW = 4;
  private static final int NO_MEDIAN = 4;
  private static final int BLOCK = 7;
  private static final int LEAST_FOR_NONE = 7;

  private final Loop loop;
  private final OverTime kind;
  private final int readings;
  private final List<Change> changes = new ArrayList<>();

  private AverageChanges(Loop loop) {
    this.loop = loop;
    this.kind = loop.average().overTime();
    this.readings = loop.average().readings();
  }

  static List<Change> of(Loop loop) {
    return loop.average().overTime() == OverTime.NONE ? List.of() : new AverageChanges(loop).all();
  }

  private List<Change> all() {
    shorter();
    switch (kind) {
      case MOVING -> withoutWindow();
      case MEDIAN -> {
        add(
            OverTime.MOVING,
            readings,
            NO_MEDIAN,
            "a single wild reading moves the average; the median left it out");
        smoothed(NO_MEDIAN + NO_WINDOW);
      }
      case EXPONENTIAL -> roundWeight();
      case BLOCK, NONE -> {}
    }
    add(
        OverTime.NONE,
        1,
        Math.max(LEAST_FOR_NONE, PER_HALVING * (int) Math.ceil(Math.log(readings) / Math.log(2))),
        "no average over time: each reading is judged by itself, so noise shows");
    return changes;
  }

  /** Half as many readings, and half of those; a median's are odd. */
  private void shorter() {
    boolean median = kind == OverTime.MEDIAN;
    int fewest = median ? 3 : 2;
    int weight = PER_HALVING;
    int fewer = halved(readings, median);
    while (fewer >= fewest && fewer < readings) {
      add(kind, fewer, weight, shorterWords(fewer));
      weight += PER_HALVING;
      int next = halved(fewer, median);
      if (next == fewer) {
        return;
      }
      fewer = next;
    }
  }

  private static int halved(int readings, boolean odd) {
    int half = readings / 2;
    return odd ? Math.max(3, half | 1) : half;
  }

  private String shorterWords(int fewer) {
    String weights =
        kind == OverTime.EXPONENTIAL
            ? "each reading weighs 1/" + fewer + " instead of 1/" + readings
            : "the " + noun() + " is of " + fewer + " readings instead of " + readings;
    return weights + ": it follows sooner, and more noise shows";
  }

  private String noun() {
    return kind == OverTime.MEDIAN ? "median" : "average";
  }

  private void withoutWindow() {
    smoothed(NO_WINDOW);
    add(
        OverTime.BLOCK,
        readings,
        BLOCK,
        "judged once in "
            + readings
            + " readings instead of at each: the alarm comes up to "
            + seconds((long) readings * loop.periodMs())
            + " later");
  }

  /**
   * The smoothing that is as calm and as late as the window: with a weight of {@code 2 / (n + 1)},
   * the mean age of what it holds and the variance of white noise are those of n readings (from the
   * geometric series of its weights). Then the nearest power of two, which needs no division.
   */
  private void smoothed(int weight) {
    int same = Math.max(2, Integer.highestOneBit((int) ((readings + 1) / 2.0 * Math.sqrt(2))));
    add(
        OverTime.EXPONENTIAL,
        same,
        weight,
        "older readings fade instead of dropping out: each new one weighs 1/"
            + same
            + ", about as calm as "
            + readings
            + " readings");
  }

  private void roundWeight() {
    int power = Integer.highestOneBit(readings);
    if (power != readings && power >= 2) {
      add(OverTime.EXPONENTIAL, power, 1, shorterWords(power));
    }
  }

  private void add(OverTime to, int of, int weight, String loss) {
    Average before = loop.average();
    Average after = new Average(before.frame(), to, of, before.level());
    if (changes.stream().noneMatch(known -> known.to().equals(words(after)))) {
      changes.add(
          Change.of(
              Aspect.AVERAGE, "average", words(before), words(after), weight, loss, edit(after)));
    }
  }

  /** Blocks are judged less often, so what counts judgements would take so much longer too. */
  private static Edit edit(Average after) {
    return loop -> {
      boolean counts = loop.alarm().tripAfter() > 1 || loop.alarm().clearAfter() > 1;
      return after.overTime() == OverTime.BLOCK && counts
          ? Optional.empty()
          : Optional.of(loop.with(after));
    };
  }

  private static String words(Average average) {
    String kind = average.overTime().name().toLowerCase(Locale.ROOT);
    return average.overTime() == OverTime.NONE ? kind : kind + " " + average.readings();
  }

  private static String seconds(long ms) {
    return java.math.BigDecimal.valueOf(ms, 3).stripTrailingZeros().toPlainString() + " s";
  }
}
