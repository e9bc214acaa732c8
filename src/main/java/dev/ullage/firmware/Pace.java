package dev.ullage.firmware;

import dev.ullage.target.Timer;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.IntFunction;

/**
 * What counts time: ticks of one timer, from the start of a reading to the start of the next.
 *
 * @param timer what ticks
 * @param prescaler, top its divider
 * @param countsPerTick matches of the timer in a tick: one, or more where the timer also makes the
 *     sounder's tone
 * @param tickMs what a tick should be; {@code exactTickMs} is what it is
 * @param shared the timer also makes the tone
 */
public record Pace(
    Timer timer,
    int prescaler,
    int top,
    int countsPerTick,
    int tickMs,
    double exactTickMs,
    boolean shared) {

  private static final double PERIOD_ERROR = 0.005;
  private static final double PATTERN_ERROR = 0.015;
  // A counter of 8 bits tells how many matches have passed as long as there are fewer than this.
  private static final int COUNTS_SEEN = 255;
  private static final int MOST_PATTERN_TICKS = 250;
  private static final int MOST_PERIOD_TICKS = 65_000;

  /**
   * Times that must come out as whole ticks, and how long the program may be away from the count.
   */
  record Needs(int periodMs, List<Integer> patternMs, int longestTickMs, double busyMs) {}

  /** A divider of this timer. */
  private record Divider(int prescaler, int top, double ms) {}

  /** The longest tick of a timer of its own that serves all needs. */
  static Optional<Pace> alone(Timer timer, long clockHz, Needs needs) {
    List<Pace> hurried = new ArrayList<>();
    return longest(
            needs,
            ms ->
                divider(timer, clockHz, ms)
                    .filter(found -> serves(ms, found.ms(), needs))
                    .map(d -> new Pace(timer, d.prescaler(), d.top(), 1, ms, d.ms(), false))
                    .filter(pace -> !pace.isHurried(needs.busyMs()) || !hurried.add(pace)))
        .or(() -> hurried.stream().findFirst());
  }

  /** Whether ticks pass while a reading is taken: they are lost, unless it looks in between. */
  boolean isHurried(double busyMs) {
    return exactTickMs <= 1.2 * busyMs;
  }

  /** Ticks counted from the matches of the timer that makes the tone. */
  static Optional<Pace> shared(Tone tone, Needs needs) {
    double countMs = 1000 / tone.roundsPerSecond();
    return longest(
        needs,
        ms -> {
          long counts = Math.max(1, Math.round(ms / countMs));
          double exactMs = counts * countMs;
          boolean seen = counts + Math.ceil(1.2 * needs.busyMs() / countMs) <= COUNTS_SEEN;
          return seen && serves(ms, exactMs, needs)
              ? Optional.of(
                  new Pace(
                      tone.timer(), tone.prescaler(), tone.top(), (int) counts, ms, exactMs, true))
              : Optional.empty();
        });
  }

  /** The first that can be had: of ticks that divide every time, then of all others. */
  private static Optional<Pace> longest(Needs needs, IntFunction<Optional<Pace>> attempt) {
    int longest = Math.min(needs.longestTickMs(), needs.periodMs());
    for (boolean exact : new boolean[] {true, false}) {
      for (int ms = longest; ms > 0 && countable(ms, needs); ms--) {
        if (divides(ms, needs) == exact) {
          Optional<Pace> found = attempt.apply(ms);
          if (found.isPresent()) {
            return found;
          }
        }
      }
    }
    return Optional.empty();
  }

  /** Counted in one byte; the ticks of a period in two. No tick below an uncountable one is. */
  private static boolean countable(int ms, Needs needs) {
    for (int time : needs.patternMs()) {
      if (time / ms > MOST_PATTERN_TICKS) {
        return false;
      }
    }
    return needs.periodMs() / ms <= MOST_PERIOD_TICKS;
  }

  private static boolean divides(int ms, Needs needs) {
    for (int time : needs.patternMs()) {
      if (time % ms != 0) {
        return false;
      }
    }
    return needs.periodMs() % ms == 0;
  }

  private static boolean serves(int ms, double exactMs, Needs needs) {
    return close(needs.periodMs(), ms, exactMs, PERIOD_ERROR)
        && needs.patternMs().stream().allMatch(time -> close(time, ms, exactMs, PATTERN_ERROR));
  }

  private static boolean close(int timeMs, int tickMs, double exactMs, double error) {
    long ticks = Math.max(1, Math.round((double) timeMs / tickMs));
    return Math.abs(ticks * exactMs - timeMs) <= error * timeMs;
  }

  private static Optional<Divider> divider(Timer timer, long clockHz, int ms) {
    for (Map.Entry<Integer, String> select : timer.clockSelect().entrySet()) {
      double counts = clockHz * (ms / 1000.0) / select.getKey();
      long top = Math.max(0, Math.round(counts) - 1);
      if (top < 1L << timer.bits()) {
        double exact = (top + 1) * 1000.0 * select.getKey() / clockHz;
        return Optional.of(new Divider(select.getKey(), (int) top, exact));
      }
    }
    return Optional.empty();
  }

  /** Whole ticks of a time, one at least. */
  long ticks(int timeMs) {
    return Math.max(1, Math.round((double) timeMs / tickMs));
  }

  /** Ticks that surely last as long as this, from any moment in a tick. */
  long ticksAtLeast(int timeMs) {
    return (long) Math.ceil(timeMs / exactTickMs) + 1;
  }
}
