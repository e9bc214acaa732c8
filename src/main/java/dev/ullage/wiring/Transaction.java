package dev.ullage.wiring;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.BusTime;
import dev.ullage.loop.Sensor;

/**
 * How long one reading keeps the bus, at the speed that the divider or the delay loop really gives.
 *
 * @param wire bytes and conditions
 * @param hz the clock as it comes out
 * @param clocksMs of the bytes, nine clocks each, and one clock for each START and STOP
 * @param programMs what the program takes between bytes, where it moves the pins itself
 * @param stretchMs how long the sensor may hold the clock, over all bytes
 * @param waitMs between ask and read
 * @param periodMs from the start of a reading to the next
 */
public record Transaction(
    BusTime wire,
    double hz,
    double clocksMs,
    double programMs,
    double stretchMs,
    double waitMs,
    double periodMs) {

  private static final double HALF = 0.5;

  /** Whether there is time enough. */
  public enum Verdict {
    GOOD,
    /** Above half of the period. */
    HIGH,
    /** Longer than the period. */
    TOO_LONG
  }

  static Transaction of(Firmware plan) {
    Sensor sensor = plan.loop().sensor();
    BusTime wire = BusTime.of(sensor);
    double hz = plan.bus().hz();
    return new Transaction(
        wire,
        hz,
        1000.0 * (wire.byteClocks() + wire.conditions()) / hz,
        wire.bytes() * plan.bus().byteMs(),
        wire.bytes() * plan.loop().board().circuit().stretchUs() / 1000.0,
        sensor.ask().isEmpty() ? 0 : sensor.waitMs(),
        plan.loop().periodMs());
  }

  /** All of it, in ms. */
  public double ms() {
    return clocksMs + programMs + stretchMs + waitMs;
  }

  /** Of the period, from 0 up. */
  public double share() {
    return ms() / periodMs;
  }

  /** Whether it leaves the period alone. */
  public Verdict verdict() {
    if (share() > 1) {
      return Verdict.TOO_LONG;
    }
    return share() > HALF ? Verdict.HIGH : Verdict.GOOD;
  }
}
