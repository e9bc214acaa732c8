package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiguresTest {
  @ParameterizedTest
  @CsvSource({
    "470, 470 ohm",
    "4700, 4.7 kohm",
    "11802, 11.8 kohm",
    "1000000, 1 Mohm",
    "966.667, 967 ohm"
  })
  void ohm(double value, String text) {
    assertEquals(text, Figures.ohm(value));
  }

  @ParameterizedTest
  @CsvSource({"0.0302, 30.2 uA", "4.667, 4.67 mA", "0, 0 uA", "99.99, 100 mA"})
  void milliamperes(double value, String text) {
    assertEquals(text, Figures.milliamperes(value));
  }

  @ParameterizedTest
  @CsvSource({"0.0016, +0.16 %", "-0.0016, -0.16 %", "0, 0 %", "-0.00001, 0 %"})
  void deviation(double value, String text) {
    assertEquals(text, Figures.deviation(value));
  }

  @ParameterizedTest
  @CsvSource({"440, 440 Hz", "32400, 32.4 kHz", "999900, 1000 kHz", "35000000, 35 MHz"})
  void hertz(double value, String text) {
    assertEquals(text, Figures.hertz(value));
  }

  @ParameterizedTest
  @CsvSource({"71, 71 h", "240, 10 days", "87660, 10 years"})
  void hours(double value, String text) {
    assertEquals(text, Figures.hours(value));
  }
}
