package dev.ullage.replay;

import dev.ullage.loop.Sensor;
import java.math.BigDecimal;
import java.math.RoundingMode;

/** From values in the unit to the counts that the sensor would have sent. */
final class UnitCounts {
  private static final BigDecimal TWO = BigDecimal.valueOf(2);

  private final BigDecimal gain;
  private final BigDecimal offset;
  private final long lowest;
  private final long highest;
  private long beyond;
  private int firstBeyond;

  UnitCounts(Sensor sensor) {
    gain = sensor.scale().gain();
    offset = sensor.scale().offset();
    lowest = sensor.frame().rawMin();
    highest = sensor.frame().rawMax();
  }

  /**
   * The nearest count, halves up; the lowest or the highest where the sensor does not reach so far.
   *
   * @param line where the value stands, to be able to say so
   */
  long of(BigDecimal value, int line) {
    // floor((value - offset) / gain + 1/2), without a division that could be endless
    BigDecimal twice = value.subtract(offset).multiply(TWO).add(gain);
    BigDecimal count = twice.divide(gain.multiply(TWO), 0, RoundingMode.FLOOR);
    BigDecimal reached = count.max(BigDecimal.valueOf(lowest)).min(BigDecimal.valueOf(highest));
    if (reached.compareTo(count) != 0 && beyond++ == 0) {
      firstBeyond = line;
    }
    return reached.longValueExact();
  }

  boolean holds(long count) {
    return lowest <= count && count <= highest;
  }

  String range() {
    return "a count from " + lowest + " to " + highest;
  }

  /** How many values the sensor could not have sent. */
  long beyond() {
    return beyond;
  }

  /** The line of the first of them. */
  int firstBeyond() {
    return firstBeyond;
  }
}
