package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import java.math.BigInteger;

/**
 * From counts to the digits of a report line: {@code (counts * multiplier + addend) >> shift} is
 * the value in units of {@code 10^-decimals}. All in signed 32-bit numbers.
 */
public record ReportScale(long multiplier, long addend, int shift, int decimals) {

  private static final int BITS = 31;
  private static final int MOST_SHIFT = 30;
  private static final int MOST_DECIMALS = 3;

  /**
   * The finest scale that no count overflows.
   *
   * @param unitStep what one raw count is worth, for the number of decimals
   */
  static ReportScale of(Ratio gain, Ratio offset, BigInteger low, BigInteger high, Ratio unitStep) {
    for (int decimals = decimals(unitStep); ; decimals--) {
      Ratio tens = Ratio.of((long) Math.pow(10, decimals));
      for (int shift = MOST_SHIFT; shift >= 0; shift--) {
        Ratio scale = tens.times(Ratio.of(1L << shift));
        BigInteger multiplier = gain.times(scale).round();
        BigInteger half = shift == 0 ? BigInteger.ZERO : BigInteger.ONE.shiftLeft(shift - 1);
        BigInteger addend = offset.times(scale).round().add(half);
        BigInteger atLow = low.multiply(multiplier).add(addend);
        BigInteger atHigh = high.multiply(multiplier).add(addend);
        boolean fits =
            fits(multiplier)
                && fits(addend)
                && fits(low.multiply(multiplier))
                && fits(high.multiply(multiplier))
                && fits(atLow)
                && fits(atHigh);
        if (fits && multiplier.signum() != 0) {
          Ratio exact = gain.times(scale);
          boolean last = decimals == 0;
          if (blurs(multiplier, exact, low, high, shift) && !(last && isClose(multiplier, exact))) {
            break;
          }
          return reduced(
              multiplier, addend, shift, decimals, gain.times(scale), offset.times(scale));
        }
      }
      if (decimals == 0) {
        throw new Lacking(
            "arithmetic", "a report value, and what it is multiplied with, do not fit 32 bits");
      }
    }
  }

  /** True if the multiplier's rounding moves a value by more than one in its last digit. */
  private static boolean blurs(
      BigInteger multiplier, Ratio exact, BigInteger low, BigInteger high, int shift) {
    Ratio error = Ratio.of(multiplier).minus(exact).magnitude();
    Ratio most = Ratio.of(low.abs().max(high.abs())).times(error);
    return most.minus(Ratio.of(1L << shift)).sign() > 0;
  }

  /** True if the multiplier's rounding moves a value by a part in 256 at most. */
  private static boolean isClose(BigInteger multiplier, Ratio exact) {
    Ratio error = Ratio.of(multiplier).minus(exact).magnitude();
    return error.times(Ratio.of(256)).minus(exact.magnitude()).sign() <= 0;
  }

  /** Where the scale is exact, the same with the smallest shift. */
  private static ReportScale reduced(
      BigInteger multiplier,
      BigInteger addend,
      int shift,
      int decimals,
      Ratio exactMultiplier,
      Ratio exactOffset) {
    boolean exact =
        exactMultiplier.under().equals(BigInteger.ONE)
            && exactOffset.under().equals(BigInteger.ONE);
    long m = multiplier.longValueExact();
    long whole = exactOffset.round().longValueExact();
    int s = shift;
    while (exact && s > 0 && (m & 1) == 0 && (whole & 1) == 0) {
      m /= 2;
      whole /= 2;
      s--;
    }
    long half = s == 0 ? 0 : 1L << (s - 1);
    return exact
        ? new ReportScale(m, whole + half, s, decimals)
        : new ReportScale(m, addend.longValueExact(), shift, decimals);
  }

  private static boolean fits(BigInteger value) {
    return value.bitLength() <= BITS;
  }

  private static int decimals(Ratio unitStep) {
    double digits = -Math.log10(unitStep.magnitude().approximately());
    return (int) Math.max(0, Math.min(MOST_DECIMALS, Math.ceil(digits - 1e-9)));
  }

  /** What the firmware makes of a count. */
  public long digits(long counts) {
    return (counts * multiplier + addend) >> shift;
  }
}
