package dev.ullage.loop;

import java.math.BigDecimal;

/** From raw counts to the unit: {@code value = raw * gain + offset}. The gain is never zero. */
public record Scale(BigDecimal gain, BigDecimal offset, String unit) {

  /** The value in the unit of a raw count. */
  public BigDecimal toUnit(BigDecimal raw) {
    return raw.multiply(gain).add(offset);
  }
}
