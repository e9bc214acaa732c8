package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * How the samples of a frame, and then successive readings, become the one value that is judged.
 *
 * @param readings successive readings in the average over time; for {@code EXPONENTIAL} the
 *     smoothing factor is {@code 1 / readings}
 * @param level for {@code SHARE_ABOVE}: a sample counts when it is above this, in the unit
 */
public record Average(OfFrame frame, OverTime overTime, int readings, Optional<BigDecimal> level) {

  /** What one frame is reduced to. */
  public enum OfFrame {
    MEAN,
    MAX,
    MIN,
    MEDIAN,
    SHARE_ABOVE
  }

  /** What successive readings are reduced to. */
  public enum OverTime {
    NONE,
    BLOCK,
    MOVING,
    EXPONENTIAL,
    MEDIAN
  }
}
