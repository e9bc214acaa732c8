package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.BusMode;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Pull-ups against the worked examples and plotted points of the specification. */
class PullUpsTest {
  // TI SLVA689, section 4: Fast-mode, 200 pF, 3.3 V: 966.667 ohm to 1.77 kohm (F-012).
  @Test
  void range_isThatOfTheApplicationNote() {
    PullUps ups = PullUps.of(3.3, BusMode.FAST, 1000, 200);
    assertEquals(966.667, ups.least(), 0.001);
    assertEquals(1770, ups.most(), 5);
    assertEquals(PullUps.Verdict.GOOD, ups.verdict());
    assertEquals(Optional.of(List.of(1000.0, 1600.0)), ups.range());
  }

  // UM10204 Rev. 7.0, section 7.2.4: 5 V and 10 %, 0.4 V at 3 mA: 1.7 kohm (F-013).
  @Test
  void least_isThatOfTheSpecification() {
    assertEquals(1700, PullUps.least(5.5), 1e-9);
  }

  // UM10204 Rev. 7.0, I/O stages: at 2 V and below VOL is 0.2 VDD at 2 mA (F-017).
  @Test
  void least_atLowSupplies_allowsForLessCurrent() {
    assertEquals(720, PullUps.least(1.8), 1e-9);
  }

  // UM10204 Rev. 7.0, section 9, figure 49: 100 pF, 3.54 kohm (F-014). The others follow from the
  // formula of section 7.1 (F-015, F-016).
  @ParameterizedTest
  @CsvSource({
    "300, 100, 3540, 5",
    "1000, 400, 2950.5, 0.5",
    "300, 400, 885.2, 0.1",
    "120, 550, 257.5, 0.1"
  })
  void most_isThatOfThePlot(double riseNs, double pf, double ohm, double tolerance) {
    assertEquals(ohm, PullUps.most(riseNs, pf), tolerance);
  }

  // At 400 pF and 3.3 V the least (966.7 ohm) is above the most (885.2 ohm) of Fast-mode (F-016).
  @Test
  void bothLimitsCannotBeKept_isSaid() {
    PullUps ups = PullUps.of(3.3, BusMode.FAST, 1000, 400);
    assertEquals(PullUps.Verdict.NO_VALUE, ups.verdict());
    assertEquals(Optional.empty(), ups.range());
    assertEquals(Optional.empty(), ups.instead());
  }

  // UM10204 Rev. 7.0, section 7.1: t2 - t1 = 1.2039729 RC - 0.3566749 RC (F-011).
  @Test
  void rise_isThatOfAnRcLine() {
    assertEquals(
        (1.2039729 - 0.3566749) * 4700 * 100 / 1000,
        PullUps.of(5, BusMode.STANDARD, 4700, 100).riseNs(),
        0.05);
  }

  @Test
  void wrongValues_getTheNearestThatWillDo() {
    PullUps high = PullUps.of(5, BusMode.STANDARD, 22_000, 150);
    assertEquals(PullUps.Verdict.TOO_HIGH, high.verdict());
    assertEquals(7500, high.instead().orElseThrow(), 1e-6);
    PullUps low = PullUps.of(5, BusMode.STANDARD, 1000, 150);
    assertEquals(PullUps.Verdict.TOO_LOW, low.verdict());
    assertEquals(1600, low.instead().orElseThrow(), 1e-6);
    assertEquals(1600, low.toBuy(), 1e-6);
  }

  // UM10204 Rev. 7.0, bus-line table (F-001, F-002, F-003, F-005, F-007, F-008, F-009), and
  // 1 / (tLOW + tHIGH + tr + tf) closes on the rate (F-010).
  @ParameterizedTest
  @CsvSource({
    "STANDARD, 100000, 4.7, 4.0, 4.7, 4.7, 1000, 10.0",
    "FAST, 400000, 1.3, 0.6, 0.6, 1.3, 300, 2.5"
  })
  void modes_areThoseOfTheSpecification(
      BusMode mode,
      int hz,
      double low,
      double high,
      double start,
      double free,
      int riseNs,
      double periodUs) {
    assertEquals(hz, mode.mostHz());
    assertEquals(low, mode.leastLowUs(), 1e-12);
    assertEquals(high, mode.leastHighUs(), 1e-12);
    assertEquals(start, mode.leastStartUs(), 1e-12);
    assertEquals(free, mode.leastFreeUs(), 1e-12);
    assertEquals(riseNs, mode.riseNs());
    // The most that a fall may take is 300 ns in both modes.
    assertEquals(periodUs, low + high + riseNs / 1000.0 + 0.3, 1e-3 + 1e-9);
    assertTrue(BusMode.of(hz) == mode && BusMode.MOST_PF == 400);
  }
}
