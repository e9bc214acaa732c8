package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Dividers of the RP2040, and what its clocks come from. */
class Rp2040DividerTest {
  private static final Target PART = Catalogue.load().target("rp2040-2m").orElseThrow();

  private static BusPlan bus(long clockHz, int speedHz) {
    return BusPlan.of(
        LoopText.loop("  speed_hz: " + speedHz + "\n", "alarm: {threshold: 1}\n"), PART, clockHz);
  }

  /**
   * High for HCNT + SPKLEN + 7 clocks, low for LCNT + 1: data sheet, 4.3.14.1, from memory. The
   * counts must be above SPKLEN + 5 and SPKLEN + 7, which at 12 MHz makes 400 kHz a bit slower.
   */
  @ParameterizedTest
  @CsvSource({
    "12000000, 100000, 52, 59, 1, 100.0",
    "12000000, 400000, 7, 15, 1, 387.1",
    "48000000, 400000, 47, 62, 3, 400.0",
    "1000000, 100000, 7, 9, 1, 40.0"
  })
  void counts_keepTheMinimaOfTheBus(
      long clockHz, int speedHz, long high, long low, long spike, double kilohertz) {
    Map<String, Long> counts = bus(clockHz, speedHz).constants();
    double us = clockHz / 1e6;
    boolean fast = speedHz > 100_000;
    assertEquals(high, counts.get("BUS_HIGH"));
    assertEquals(low, counts.get("BUS_LOW"));
    assertEquals(spike, counts.get("BUS_SPIKE"));
    // UM10204 Rev 7, table 10.
    assertTrue((low + 1) / us >= (fast ? 1.3 : 4.7));
    assertTrue((high + spike + 7) / us >= (fast ? 0.6 : 4.0));
    assertTrue(high > spike + 5 && low > spike + 7);
    assertTrue(counts.get("BUS_HOLD") / us >= 0.3 && counts.get("BUS_HOLD") <= low + 1 - 2);
    assertEquals(kilohertz, bus(clockHz, speedHz).hz() / 1000, 0.05);
  }

  /**
   * The least clocks of the controller's own table, "IC_CLK in relation to high and low counts"
   * (from memory): 2.7 MHz for Standard-mode, 12 MHz for Fast-mode, each with the least counts.
   */
  @ParameterizedTest
  @CsvSource({"2.7, 6, 12, 4.7, 4.0", "12.0, 6, 15, 1.3, 0.6"})
  void leastClocksOfTheManual_keepTheMinimaByTheSameFormula(
      double us, int high, int low, double lowUs, double highUs) {
    assertTrue((low + 1) / us >= lowUs && low / us < lowUs, "no less low");
    assertTrue((high + 1 + 7) / us >= highUs);
  }

  /** PL011: rate = clock / (16 * (IBRD + FBRD / 64)): data sheet, 4.2.7.1. */
  @ParameterizedTest
  @CsvSource({
    "12000000, 9600, 78, 8, 0.0",
    "12000000, 115200, 6, 33, -0.0008",
    "48000000, 115200, 26, 3, -0.0002"
  })
  void rate_hasAFraction(long clockHz, int baud, long whole, long fraction, double error) {
    Serial serial = Serial.of(PART, clockHz, baud);
    assertEquals(whole, serial.constants().get("SERIAL_DIVIDER"));
    assertEquals(fraction, serial.constants().get("SERIAL_FRACTION"));
    assertEquals(error, serial.error(), 0.0001);
  }

  /** Twice the microseconds in 24 bits. */
  @Test
  void watchdog_waitsForEightSecondsAtMost() {
    assertEquals(
        16_000_000L, Guard.of(PART.family().watchdog(), 8000).constants().get("WATCHDOG_COUNT"));
    assertThrows(Lacking.class, () -> Guard.of(PART.family().watchdog(), 8400));
  }

  @Test
  void clock_isTheCrystalsUnlessToldOtherwise() {
    Clocking clock = Clocking.of(LoopText.loop("", "alarm: {threshold: 1}\n").board(), PART);
    assertEquals(12_000_000, clock.hz());
    assertEquals(Clocking.Source.CRYSTAL, clock.source());
    assertEquals("crystal", clock.setting().orElseThrow().way());
  }
}
