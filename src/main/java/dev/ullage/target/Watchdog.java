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

  /** Enable bit in the control register, and the vector. */
  public record Interrupt(String bit, String vector) {}
}
