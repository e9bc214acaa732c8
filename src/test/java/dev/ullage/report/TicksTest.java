package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TicksTest {
  @Test
  void values_areMultiplesOfARoundStep() {
    assertEquals(List.of(40.0, 45.0, 50.0, 55.0, 60.0), Ticks.between(39.8, 62.2, 6));
    assertEquals(List.of(-2.0, 0.0, 2.0), Ticks.between(-3.9, 3.9, 6));
    assertEquals(List.of(100.0, 200.0, 300.0), Ticks.between(99, 350, 3));
  }

  @ParameterizedTest
  @CsvSource({
    "1800000, 300000",
    "600000, 120000",
    "5000, 1000",
    "126230400000, 43200000000",
    "3, 1"
  })
  void times_areRoundInUnitsOfTime(long end, long step) {
    List<Long> times = Ticks.times(end, 6);
    assertEquals(0, times.get(0));
    assertEquals(step, times.get(1));
  }
}
