package dev.ullage.target;

import java.util.List;
import java.util.Optional;

/**
 * The watchdog. {@code timeoutsMs} is in the order of its prescaler bits, so an index is the value
 * to write.
 *
 * @param interrupt what makes it wake the part instead of restarting it; empty where it cannot
 */
public record Watchdog(
    String control, List<Integer> timeoutsMs, String resetFlags, Optional<Interrupt> interrupt) {

  public Watchdog {
    timeoutsMs = List.copyOf(timeoutsMs);
  }

  /** Enable bit in the control register, and the vector. */
  public record Interrupt(String bit, String vector) {}
}
