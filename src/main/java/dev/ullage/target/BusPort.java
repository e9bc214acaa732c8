package dev.ullage.target;

import java.util.Optional;

/**
 * The hardware for a two-wire bus.
 *
 * @param kind what it can be
 * @param registers where it can be a controller
 */
public record BusPort(Kind kind, Optional<Registers> registers) {

  /** What the hardware can be on the bus. */
  public enum Kind {
    /** Nothing there. */
    NONE,
    /** A universal serial interface: half of the work is left to the program. */
    USI,
    /** Can only be addressed by others. */
    TARGET_ONLY,
    /** As above, and a universal serial interface beside it. */
    TARGET_ONLY_AND_USI,
    /** Can be a controller. */
    CONTROLLER,
    /** Serial blocks, each of which can be a controller or a serial port, not both at once. */
    SHARED
  }

  /** Register names and the interrupt vector of a controller, and its pins. */
  public record Registers(
      String bitRate,
      String control,
      String data,
      String status,
      String vector,
      String sda,
      String scl) {}
}
