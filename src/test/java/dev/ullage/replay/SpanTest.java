package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SpanTest {
  @ParameterizedTest
  @CsvSource({
    "0, 0 s",
    "7, 7 ms",
    "1500, 1 s 500 ms",
    "60000, 1 min",
    "333000, 5 min 33 s",
    "3600005, 1 h",
    "90061000, 1 d 1 h"
  })
  void time_isInItsTwoLargestUnits(long ms, String expected) {
    assertEquals(expected, Span.of(ms));
  }
}
