package dev.ullage.replay;

import java.util.Arrays;

/**
 * One reading of a trace.
 *
 * @param line of the trace that it came from, from 1
 * @param timeMs when it began, in milliseconds from the first one
 * @param raw the samples of its frame in counts, as many as the loop has; empty where it failed
 */
public record Reading(int line, long timeMs, long[] raw) {
  private static final long[] NOTHING = {};

  static Reading failed(int line, long timeMs) {
    return new Reading(line, timeMs, NOTHING);
  }

  /** True if the sensor did not answer, or its check byte was wrong. */
  public boolean failed() {
    return raw.length == 0;
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Reading reading
        && line == reading.line
        && timeMs == reading.timeMs
        && Arrays.equals(raw, reading.raw);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(raw) + Long.hashCode(timeMs);
  }

  @Override
  public String toString() {
    return timeMs + " ms " + Arrays.toString(raw);
  }
}
