package dev.ullage.replay;

import java.math.BigDecimal;

/**
 * A change of one setting with which the alarm does not come back too soon any more.
 *
 * @param setting key in the loop file
 * @param value what to set it to
 * @param alarms how often the alarm then goes on
 * @param laterOn readings that it goes on later, at the worst
 * @param laterOff readings that it goes off later, at the worst
 * @param missed alarms of now that there would not be at all
 */
public record Remedy(
    Setting setting, BigDecimal value, int alarms, int laterOn, int laterOff, int missed) {

  /** What can be set. */
  public enum Setting {
    HYSTERESIS("alarm.hysteresis"),
    TRIP_AFTER("alarm.trip_after"),
    CLEAR_AFTER("alarm.clear_after");

    private final String key;

    Setting(String key) {
      this.key = key;
    }

    /** As the loop file has it. */
    public String key() {
      return key;
    }
  }
}
