package dev.ullage.firmware;

import java.math.BigInteger;

/**
 * The arithmetic of the knob: a converter code times a multiplier over 1024, by ten conditional
 * additions and shifts, so that no multiplication routine is linked. The same steps as the emitted
 * C takes.
 */
public final class Knob {
  /** The highest code of a 10-bit converter. */
  public static final int TOP = 1023;

  private static final int BITS = 10;

  private Knob() {}

  /** What the firmware makes of a code from 0 to {@link #TOP}. */
  public static long scaled(int code, long multiplier) {
    long scaled = 0;
    int rest = code;
    for (int bit = 0; bit < BITS; bit++) {
      if ((rest & 1) != 0) {
        scaled += multiplier;
      }
      scaled >>= 1;
      rest >>= 1;
    }
    return scaled;
  }

  /** The code of a knob that is turned by this share of its range, 0 to 1; the nearest one. */
  public static int code(double turn) {
    return (int) Math.floor(turn * TOP + 0.5);
  }

  /** The multiplier that takes the top code exactly to {@code span}. */
  static long multiplier(long span) {
    long multiplier = span;
    while (scaled(TOP, multiplier) < span) {
      multiplier += Math.max(1, (span - scaled(TOP, multiplier)) / 2);
    }
    if (multiplier > Integer.MAX_VALUE) {
      // A step adds the multiplier to nearly as much again before it halves the sum.
      throw new Whole.TooWide(BigInteger.ZERO, BigInteger.valueOf(2 * multiplier));
    }
    return multiplier;
  }
}
