package dev.ullage.report;

import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.util.Optional;

/**
 * What one loop comes to on one target.
 *
 * @param busDriver the driver that was chosen; empty where nothing could be planned
 * @param estimate empty where nothing could be planned
 * @param headroom empty where there is no estimate
 */
public record Assessment(
    Target target,
    Verdict verdict,
    Optional<String> busDriver,
    Optional<Estimate> estimate,
    Optional<Headroom> headroom) {

  /** How the figures are known; where there are none, only the limits of the part are. */
  public Estimate.Grade grade() {
    return estimate.map(Estimate::grade).orElse(Estimate.Grade.LISTED);
  }

  /** Capacity less footprint less margin, in bytes; negative where it does not fit. */
  public record Headroom(int flash, int ram) {}
}
