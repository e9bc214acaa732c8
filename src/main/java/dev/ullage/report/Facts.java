package dev.ullage.report;

import dev.ullage.target.Target;
import java.math.BigDecimal;

/** Facts of a target in words. */
final class Facts {
  private Facts() {}

  /** {@code 1.8-5.5}, in volts. */
  static String supply(Target target) {
    return target.clock().supplyMin().toPlainString()
        + "-"
        + target.clock().supplyMax().toPlainString();
  }

  /** {@code 9.6} for 9,600,000 Hz. */
  static String megahertz(long hertz) {
    return BigDecimal.valueOf(hertz, 6).stripTrailingZeros().toPlainString();
  }

  /** What there is for a two-wire bus. */
  static String bus(Target target) {
    return switch (target.family().busPort().kind()) {
      case NONE -> "none";
      case USI -> "USI";
      case TARGET_ONLY -> "addressed only";
      case TARGET_ONLY_AND_USI -> "USI, addressed";
      case CONTROLLER -> "TWI";
    };
  }
}
