package dev.ullage.loop;

/**
 * How wide the running sum of an average must be: the largest value times the count of values, in
 * bits, with the sign where there is one. A sum of n values of k bits never needs more than k +
 * ceil(log2 n) bits.
 *
 * @param largest the largest magnitude of a value that is summed
 * @param values how many are summed: samples of a frame times readings
 */
public record SumWidth(long largest, int values, boolean signed) {
  /** The widest sum that the firmware keeps. */
  public static final int MAX_BITS = 32;

  public static SumWidth of(Frame frame, Average average) {
    int readings =
        switch (average.overTime()) {
          case NONE, MEDIAN -> 1;
          case BLOCK, MOVING, EXPONENTIAL -> average.readings();
        };
    return switch (average.frame()) {
      case MEAN -> new SumWidth(magnitude(frame), frame.samples() * readings, frame.signed());
      case SHARE_ABOVE -> new SumWidth(frame.samples(), readings, false);
      case MAX, MIN, MEDIAN -> new SumWidth(magnitude(frame), readings, frame.signed());
    };
  }

  private static long magnitude(Frame frame) {
    return frame.signed() ? -frame.rawMin() : frame.rawMax();
  }

  /** Bits of the sum; of a negative one, -2^n needs n + 1. */
  public int bits() {
    long sum = largest * values;
    return signed ? bitLength(sum - 1) + 1 : bitLength(sum);
  }

  /** The most values whose sum still fits {@link #MAX_BITS}. */
  public long mostValues() {
    long room = signed ? 1L << (MAX_BITS - 1) : (1L << MAX_BITS) - 1;
    return room / largest;
  }

  private static int bitLength(long value) {
    return Long.SIZE - Long.numberOfLeadingZeros(value);
  }
}
