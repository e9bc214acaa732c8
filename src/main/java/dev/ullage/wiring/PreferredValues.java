package dev.ullage.wiring;

import java.util.Optional;

/** Resistors that can be bought: the E24 series of IEC 60063. */
public final class PreferredValues {
  // Ten times the series; not the nearest to a geometric one at 27, 30, 33, 36, 39, 43, 47 and 82.
  private static final int[] E24 = {
    10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91
  };

  private PreferredValues() {}

  /** The least value that is not below this one, in ohm; 1 at least. */
  public static double atLeast(double ohm) {
    double decade = 0.1;
    while (true) {
      for (int step : E24) {
        // A hair less, so that a value of the series is not missed for the last digit of a double.
        if (step * decade >= Math.max(1, ohm) * (1 - 1e-9)) {
          return step * decade;
        }
      }
      decade *= 10;
    }
  }

  /** The greatest value that is not above this one; empty below 1 ohm. */
  public static Optional<Double> atMost(double ohm) {
    Optional<Double> best = Optional.empty();
    for (double decade = 0.1; 10 * decade <= ohm * (1 + 1e-9); decade *= 10) {
      for (int step : E24) {
        if (step * decade <= ohm * (1 + 1e-9)) {
          best = Optional.of(step * decade);
        }
      }
    }
    return best;
  }
}
