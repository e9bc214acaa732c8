package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import dev.ullage.formula.Recipe;
import dev.ullage.target.SerialPort;
import dev.ullage.target.Target;
import java.util.Map;
import java.util.Optional;

/**
 * How report lines are sent.
 *
 * @param hardware the serial port; empty where the program moves a pin
 * @param constants the hardware's divider, or turns of the delay loop of a bit
 * @param error what the rate is off by, as a fraction
 */
public record Serial(Optional<SerialPort> hardware, Map<String, Long> constants, double error) {

  // Two per cent leaves the receiver the other half of what a frame of ten bits can bear (common
  // practice, no source).
  private static final double TOLERANCE = 0.02;

  public Serial {
    constants = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(constants));
  }

  static Serial of(Target target, long clockHz, int baud) {
    Optional<SerialPort> hardware = target.family().serialPort();
    Recipe rate =
        hardware
            .map(SerialPort::rate)
            .or(target.toolchain()::bitSerial)
            .orElseThrow(() -> new Lacking("peripheral", "the port has no serial line"));
    Recipe.Outcome outcome = rate.solve(Map.of("clock", Ratio.of(clockHz), "baud", Ratio.of(baud)));
    if (outcome.tooFar().isPresent()) {
      throw new Lacking("clock", off(clockHz, baud, "no divider reaches it"));
    }
    double error = outcome.real("hz") / baud - 1;
    if (Math.abs(error) > TOLERANCE) {
      String much =
          "it is off by " + Decimal.of(100 * error, 1) + " %, and more than 2 % is too much";
      throw new Lacking("clock", off(clockHz, baud, much));
    }
    return new Serial(hardware, outcome.constants(), error);
  }

  private static String off(long clockHz, int baud, String why) {
    return baud + " baud from " + Clocking.megahertz(clockHz) + ": " + why;
  }
}
