package dev.ullage.loop;

import java.util.Optional;
import java.util.OptionalInt;

/**
 * What a loop may have besides its alarm.
 *
 * @param settings the threshold is kept in EEPROM, with a check byte
 * @param watchdogMs longest time without progress before the part restarts
 */
public record Extras(
    Optional<Report> report,
    boolean settings,
    OptionalInt watchdogMs,
    Sleep sleep,
    boolean muteButton) {

  /** One text line for each reading over the serial port. */
  public record Report(int baud, Send send) {
    /** What a line holds. */
    public enum Send {
      AVERAGE,
      FRAME
    }
  }

  /** What the part does while it waits. */
  public enum Sleep {
    NONE,
    IDLE,
    DEEP
  }
}
