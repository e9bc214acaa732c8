package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import dev.ullage.formula.Recipe;
import dev.ullage.target.Watchdog;
import java.util.List;
import java.util.Map;

/**
 * How the watchdog is set.
 *
 * @param realMs after how long it restarts the part
 */
record Guard(Map<String, Long> constants, long realMs) {

  /** At least as long as wanted, or the longest there is. */
  static Guard of(Watchdog watchdog, int wantedMs) {
    List<Integer> timeouts = watchdog.timeoutsMs();
    int step = 0;
    while (step < timeouts.size() - 1 && timeouts.get(step) < wantedMs) {
      step++;
    }
    Recipe.Outcome outcome =
        watchdog.setting().solve(Map.of("ms", Ratio.of(wantedMs), "step", Ratio.of(step)));
    if (outcome.tooFar().isPresent()) {
      throw new Lacking("peripheral", "the watchdog cannot wait for " + wantedMs + " ms");
    }
    long realMs = timeouts.isEmpty() ? Math.round(outcome.real("real_ms")) : timeouts.get(step);
    return new Guard(outcome.constants(), realMs);
  }
}
