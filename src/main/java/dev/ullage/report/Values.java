package dev.ullage.report;

import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/**
 * Values in the unit of a loop, with as many decimals as the sensor can tell apart.
 *
 * @param unit of what is judged
 * @param decimals of it
 */
record Values(String unit, int decimals) {
  private static final int FEW_DECIMALS = 3;
  private static final int MOST_DECIMALS = 9;

  /** Of what the alarm judges. */
  static Values judged(Loop loop) {
    return loop.average().frame() == Average.OfFrame.SHARE_ABOVE
        ? new Values("%", 1)
        : new Values(loop.sensor().scale().unit(), decimals(loop));
  }

  /** Of a sample. */
  static Values sampled(Loop loop) {
    return new Values(loop.sensor().scale().unit(), decimals(loop));
  }

  /** All of the step between two counts where these are few, else enough to tell two apart. */
  private static int decimals(Loop loop) {
    BigDecimal step = loop.sensor().scale().gain().abs().stripTrailingZeros();
    int enough = (int) Math.ceil(-Math.log10(step.doubleValue()) - 1e-9);
    return Math.max(
        0, step.scale() <= FEW_DECIMALS ? step.scale() : Math.min(MOST_DECIMALS, enough));
  }

  /** With its decimals, and without the unit. */
  String bare(double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? rounded.abs().toPlainString() : rounded.toPlainString();
  }

  /** With its decimals and the unit. */
  String full(double value) {
    return (bare(value) + " " + unit).strip();
  }

  /** With three digits that count, for what may be far smaller than a step of the sensor. */
  String rough(double value) {
    if (value == 0) {
      return ("0 " + unit).strip();
    }
    BigDecimal rounded = BigDecimal.valueOf(value).round(new MathContext(3));
    return (rounded.stripTrailingZeros().toPlainString() + " " + unit).strip();
  }
}
