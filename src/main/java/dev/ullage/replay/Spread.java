package dev.ullage.replay;

/**
 * How values are spread.
 *
 * @param count of values
 * @param sd standard deviation of a sample: the squares' sum over {@code count - 1}; 0 for one
 *     value
 * @param low, high the smallest and the largest
 */
public record Spread(int count, double mean, double sd, double low, double high) {

  /**
   * Of values that may hold NaN, which does not count. Two passes, so that large values may be
   * close.
   */
  public static Spread of(double[] values) {
    int count = 0;
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    double first = Double.NaN;
    double sum = 0;
    for (double value : values) {
      if (!Double.isNaN(value)) {
        first = count++ == 0 ? value : first;
        low = Math.min(low, value);
        high = Math.max(high, value);
        // From the first value on, so that the digits that all have in common cost no precision.
        sum += value - first;
      }
    }
    double mean = first + sum / count;
    double squares = 0;
    for (double value : values) {
      squares += Double.isNaN(value) ? 0 : (value - mean) * (value - mean);
    }
    return new Spread(count, mean, count < 2 ? 0 : Math.sqrt(squares / (count - 1)), low, high);
  }

  public double peakToPeak() {
    return high - low;
  }
}
