package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import dev.ullage.formula.Recipe;
import dev.ullage.target.Family;
import dev.ullage.target.Watchdog;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Naps of one length that together make up the rest of a period.
 *
 * @param constants how one is set
 * @param count how many
 * @param ms how long one lasts
 */
record Naps(Map<String, Long> constants, long count, double ms) {
  private static final double TIMEOUT_ERROR = 0.03;
  private static final double TIMER_ERROR = 0.002;
  private static final int MOST = 0xFFFF;
  private static final int COUNTS_TRIED = 16;

  /**
   * By a slow timer where there is one, else by the watchdog.
   *
   * @param awakeMs what a reading takes of the period
   * @param watchdogMs after how long a watchdog that goes on meanwhile restarts the part
   * @throws Lacking if nothing here can wake the part
   */
  static Naps of(Family family, int periodMs, double awakeMs, OptionalInt watchdogMs) {
    double asleepMs = Math.max(periodMs - awakeMs, periodMs / 2.0);
    Optional<Recipe> timer = family.sleep().nap();
    if (timer.isEmpty()) {
      return byWatchdog(family.watchdog(), asleepMs);
    }
    int part = family.sleep().watchdogPart();
    double longest = watchdogMs.isPresent() ? watchdogMs.getAsInt() / (double) part : asleepMs;
    return byTimer(timer.get(), asleepMs, longest);
  }

  /** Whether something wakes the part after a time. */
  static boolean possible(Family family) {
    return family.sleep().nap().isPresent() || family.watchdog().nap().isPresent();
  }

  private static Naps byWatchdog(Watchdog watchdog, double wantedMs) {
    List<Integer> timeouts = watchdog.timeoutsMs();
    int chosen = 0;
    for (int i = 0; i < timeouts.size(); i++) {
      double error = error(timeouts.get(i), wantedMs);
      if (error <= Math.max(TIMEOUT_ERROR, error(timeouts.get(chosen), wantedMs))) {
        chosen = i;
      }
    }
    int napMs = timeouts.get(chosen);
    Recipe nap = watchdog.nap().orElseThrow();
    return new Naps(
        nap.solve(Map.of("step", Ratio.of(chosen))).constants(),
        Math.min(count(napMs, wantedMs), MOST),
        napMs);
  }

  private static long count(double napMs, double wantedMs) {
    return Math.max(1, Math.round(wantedMs / napMs));
  }

  private static double error(double napMs, double wantedMs) {
    return Math.abs(count(napMs, wantedMs) * napMs / wantedMs - 1);
  }

  /** As few as the timer can do, or a few more where that comes nearer. */
  private static Naps byTimer(Recipe nap, double wanted, double longest) {
    long fewest = Math.max(1, (long) Math.ceil(wanted / longest));
    Optional<Naps> best = Optional.empty();
    int tried = 0;
    for (long count = fewest; count <= MOST && tried < COUNTS_TRIED; count++) {
      Optional<Naps> naps = divided(nap, wanted, count);
      tried += naps.isPresent() ? 1 : 0;
      if (naps.isPresent() && best.filter(b -> b.off(wanted) <= naps.get().off(wanted)).isEmpty()) {
        best = naps;
      }
      if (best.filter(b -> b.off(wanted) <= TIMER_ERROR).isPresent()) {
        break;
      }
    }
    return best.orElseThrow(
        () -> new Lacking("clock", "no timer that wakes the part fits the period"));
  }

  private static Optional<Naps> divided(Recipe nap, double wantedMs, long count) {
    long us = Math.round(1000 * wantedMs / count);
    Recipe.Outcome outcome = nap.solve(Map.of("ms", Ratio.of(us).over(Ratio.of(1000))));
    return outcome.tooFar().isPresent()
        ? Optional.empty()
        : Optional.of(new Naps(outcome.constants(), count, outcome.real("real_ms")));
  }

  private double off(double wantedMs) {
    return Math.abs(count * ms / wantedMs - 1);
  }
}
