package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DecimalTest {

  @ParameterizedTest
  @CsvSource({
    "0, 2, 0.00",
    "2.7, 1, 2.7",
    "2.75, 1, 2.8",
    "0.0349, 3, 0.035",
    "1.05, 0, 1",
    "-0.16, 2, -0.16",
    "-0.001, 2, 0.00",
    "1234567.891, 1, 1234567.9"
  })
  void value_hasSoManyPlaces(double value, int places, String text) {
    assertEquals(text, Decimal.of(value, places));
  }
}
