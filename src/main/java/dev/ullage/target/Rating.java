package dev.ullage.target;

import java.math.BigDecimal;

/**
 * The widest range over all order codes of a part. The ends need not go together: the highest clock
 * may need more than the lowest supply.
 *
 * @param maxHz the highest clock
 * @param supplyMin, supplyMax in volts
 */
public record Rating(long maxHz, BigDecimal supplyMin, BigDecimal supplyMax) {

  /** True where the part, or one of its order codes, runs from this supply. */
  public boolean covers(BigDecimal volts) {
    return supplyMin.compareTo(volts) <= 0 && supplyMax.compareTo(volts) >= 0;
  }
}
