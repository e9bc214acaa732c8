package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Sleep.
 *
 * @param nap from {@code ms} to the constants of a deep sleep that a slow timer ends, and {@code
 *     real_ms}, how long it lasts; empty where no such timer is known, or the watchdog is it
 * @param watchdogPart naps take at most this part of the watchdog's time: half of it leaves time
 *     for work, and less is for parts whose naps and watchdog have oscillators of their own
 * @param lostClocks ways of setting the clock that have to be gone again after a nap
 * @param registers what else the templates want to know
 */
public record Sleep(
    Optional<Recipe> nap,
    int watchdogPart,
    List<String> lostClocks,
    Map<String, String> registers) {
  public Sleep {
    lostClocks = List.copyOf(lostClocks);
    registers = Map.copyOf(registers);
  }
}
