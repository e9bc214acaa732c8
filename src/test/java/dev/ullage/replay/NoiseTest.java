package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The noise of an average, apart from a slow change that is much larger. */
class NoiseTest {
  private static final int READINGS = 20_000;
  private static final double SIGMA = 4;

  /**
   * An average of N independent values has sigma / sqrt(N). An exponential one with the factor a
   * has sigma * sqrt(a / (2 - a)). Both: Smith, The Scientist and Engineer's Guide to Digital
   * Signal Processing, chapters 15 and 19.
   */
  @ParameterizedTest
  @CsvSource({
    "none, 1, 1",
    "moving, 4, 0.5",
    "moving, 16, 0.25",
    "moving, 64, 0.125",
    "block, 16, 0.25",
    "exponential, 10, 0.229416",
    "exponential, 4, 0.377964",
  })
  void noise_isThatOfTheAverage(String kind, int readings, double factor) {
    String average = "average: {over_time: " + kind + ", readings: " + readings + "}\n";
    String alarm = "alarm: {when: above, threshold: 3000}";
    Replay replay = Traces.replay(Traces.loop(average + alarm), noisy());
    double expected = SIGMA * factor;
    assertEquals(expected, replay.summary().noiseSd(), 0.05 * expected);
  }

  private static String noisy() {
    Random random = new Random(3);
    StringBuilder values = new StringBuilder();
    for (int i = 0; i < READINGS; i++) {
      double slow = 800 * Math.sin(2 * Math.PI * i / READINGS);
      values.append(String.format(Locale.ROOT, "%.1f%n", slow + SIGMA * random.nextGaussian()));
    }
    return values.toString();
  }
}
