package dev.ullage.target;

import java.util.List;
import java.util.Optional;

/**
 * The watchdog. {@code timeoutsMs} is in the order of its prescaler bits, so an index is the value
 * to write.
 *
 * @param guard register that lets the watchdog and the clock prescaler be changed, once the
 *     signature is written to it; empty where they have a change-enable bit of their own
 * @param interrupt what makes it wake the part instead of restarting it; empty where it cannot
 */
public record Watchdog(
    String control,
    List<Integer> timeoutsMs,
    String resetFlags,
    Optional<String> guard,
    Optional<Interrupt> interrupt) {

  public Watchdog {
    timeoutsMs = List.copyOf(timeoutsMs);
  }

  /** The shortest timeout of at least this long, or the longest there is. */
  public int timeoutFor(int ms) {
    return timeoutsMs.stream()
        .filter(each -> each >= ms)
        .findFirst()
        .orElse(timeoutsMs.get(timeoutsMs.size() - 1));
  }

  /** Enable bit in the control register, and the vector. */
  public record Interrupt(String bit, String vector) {}
}
