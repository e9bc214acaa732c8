package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The E24 series of IEC 60063. */
class PreferredValuesTest {
  // IEC 60063, E24: 10 11 12 13 15 16 18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91
  // (F-100).
  private static final String E24 =
      "10 11 12 13 15 16 18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91";

  @Test
  void values_areThoseOfTheSeries() {
    StringBuilder walked = new StringBuilder();
    double value = 10;
    while (value < 99) {
      walked.append(walked.isEmpty() ? "" : " ").append(Math.round(value));
      value = PreferredValues.atLeast(value + 0.01);
    }
    assertEquals(E24, walked.toString());
  }

  @ParameterizedTest
  @CsvSource({"260, 270", "150, 150", "4700, 4700", "4701, 5100", "0.5, 1", "920000, 1000000"})
  void atLeast_isTheNextUp(double ohm, double expected) {
    assertEquals(expected, PreferredValues.atLeast(ohm), 1e-6 * expected);
  }

  @ParameterizedTest
  @CsvSource({"260, 240", "150, 150", "11802, 11000", "1, 1"})
  void atMost_isTheNextDown(double ohm, double expected) {
    assertEquals(expected, PreferredValues.atMost(ohm).orElseThrow(), 1e-6 * expected);
  }

  @Test
  void belowOneOhm_thereIsNone() {
    assertEquals(Optional.empty(), PreferredValues.atMost(0.9));
  }

  // Neighbours of E24 are 10 % apart at most, but for 13 to 15, which are 15.4 %.
  @Property
  void neighbours_encloseEveryValue(@ForAll @DoubleRange(min = 1, max = 1e7) double ohm) {
    double up = PreferredValues.atLeast(ohm);
    double down = PreferredValues.atMost(ohm).orElseThrow();
    assertTrue(down <= ohm * (1 + 1e-8) && ohm <= up * (1 + 1e-8), down + " " + ohm + " " + up);
    assertTrue(up / down < 1.155, down + " to " + up);
  }
}
