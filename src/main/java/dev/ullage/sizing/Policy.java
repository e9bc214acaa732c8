package dev.ullage.sizing;

import dev.ullage.sizing.Estimate.Interval;

/** How far a flash figure may be off: the only place that says so. */
final class Policy {
  /** What is left where every module was measured as it is; a linker may align a little. */
  private static final int EXACT_BYTES = 2;

  private static final double EXACT_SHARE = 0.0025;

  /**
   * What more it may be where the linker shortens calls: those near the limit of their reach depend
   * on each other, and a call that is not shortened is two or four bytes. 8 bytes in all were seen.
   */
  static final int SHORTENED_BYTES = 4;

  /** What a module may be off that no pair of measurements says anything about. */
  private static final double UNKNOWN_SHARE = 0.15;

  private static final int UNKNOWN_BYTES = 8;

  /** What code may be off that was measured on another core. */
  private static final double SIBLING_SHARE = 0.10;

  private Policy() {}

  /**
   * @param likely the sum of the parts
   * @param spread what approximated parts add to the doubt
   * @param sibling whether the figures are those of another core
   */
  static Interval interval(int likely, int spread, boolean sibling) {
    double share = sibling ? SIBLING_SHARE : EXACT_SHARE;
    int either = Math.max(EXACT_BYTES, (int) Math.ceil(likely * share)) + spread;
    return new Interval(Math.max(0, likely - either), likely, likely + either);
  }

  static int unknown(int bytes) {
    return UNKNOWN_BYTES + (int) Math.ceil(bytes * UNKNOWN_SHARE);
  }
}
