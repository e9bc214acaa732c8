package dev.ullage.slim;

import java.util.Locale;

/**
 * What of a loop can be had in another way. A set of changes has at most one for each aspect, and
 * they are made in this order: a later one may look at what an earlier one has left.
 */
public enum Aspect {
  /** How the bus is driven. */
  DRIVER,
  /** Bytes of the buffered driver's buffers. */
  BUFFERS,
  /** What the part runs at. */
  CLOCK,
  /** Pins that the loop file names. */
  PINS,
  /** The sensor's check bytes. */
  CHECK,
  /** The watch for a sensor that sends the same value for ever. */
  FROZEN,
  /** Readings in a row that trip and clear the alarm. */
  COUNTS,
  /** The average of successive readings. */
  AVERAGE,
  /** How far back inside the alarm clears. */
  HYSTERESIS,
  /** The potentiometer for the threshold. */
  KNOB,
  /** The threshold that is kept without power. */
  SETTINGS,
  /** The alarm that stays until someone comes. */
  LATCH,
  /** The button that silences it. */
  MUTE,
  /** The lamp and how it blinks. */
  LAMP,
  /** The sounder, its tone and its pattern. */
  SOUNDER,
  /** The line over the serial port. */
  REPORT,
  /** What the part does while it waits. */
  SLEEP,
  /** The restart of a program that hangs. */
  WATCHDOG;

  /** The word for it on a command line. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
