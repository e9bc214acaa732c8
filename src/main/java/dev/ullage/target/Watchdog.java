package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The watchdog.
 *
 * @param timeoutsMs those that it can be set to, shortest first; empty where it is set freely
 * @param setting from {@code ms}, and {@code step}, the place among the timeouts, to constants;
 *     where it is set freely also to {@code real_ms}
 * @param nap from {@code step} to the constants of a sleep that the watchdog ends; empty where it
 *     cannot wake the part
 * @param registers what else the templates want to know
 */
public record Watchdog(
    List<Integer> timeoutsMs, Recipe setting, Optional<Recipe> nap, Map<String, String> registers) {

  public Watchdog {
    timeoutsMs = List.copyOf(timeoutsMs);
    registers = Map.copyOf(registers);
  }
}
