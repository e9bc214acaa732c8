package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * When the alarm goes on and off. It trips strictly past the limit, and clears at or inside the
 * limit moved back by the hysteresis.
 *
 * @param hysteresis in the unit, not negative
 * @param tripAfter successive readings past the limit that trip it
 * @param clearAfter successive readings inside that clear it
 * @param latch stays on until the mute button is pressed
 * @param faultsAllowed successive failed readings before the fault policy acts
 */
public record Alarm(
    Limit limit,
    BigDecimal hysteresis,
    int tripAfter,
    int clearAfter,
    boolean latch,
    OnFault onSensorFault,
    int faultsAllowed) {

  /** The limit, in the unit (in per cent for a share of samples). */
  public sealed interface Limit {
    /** Trips above the threshold. */
    record Above(Setting setting) implements Limit {}

    /** Trips below the threshold. */
    record Below(Setting setting) implements Limit {}

    /** Trips below low or above high. */
    record Outside(BigDecimal low, BigDecimal high) implements Limit {}

    /** The knob that sets the limit, where there is one. */
    default Optional<Setting.Knob> knob() {
      if (this instanceof Above above && above.setting() instanceof Setting.Knob knob) {
        return Optional.of(knob);
      }
      return this instanceof Below below && below.setting() instanceof Setting.Knob knob
          ? Optional.of(knob)
          : Optional.empty();
    }
  }

  /** Where a threshold comes from. */
  public sealed interface Setting {
    /** A number in the loop file. */
    record Fixed(BigDecimal threshold) implements Setting {}

    /** A potentiometer: {@code from} at its lowest voltage, {@code to} at the supply. */
    record Knob(BigDecimal from, BigDecimal to) implements Setting {}
  }

  /** What a sensor that has failed too often does to the alarm. */
  public enum OnFault {
    ALARM,
    HOLD,
    QUIET
  }
}
