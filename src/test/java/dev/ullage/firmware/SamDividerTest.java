package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.formula.Ratio;
import dev.ullage.formula.Recipe;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.math.BigDecimal;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Dividers of SAM D parts against the equations and examples of the manuals. */
class SamDividerTest {
  private static final Catalogue CATALOGUE = Catalogue.load();
  private static final Target D21 = CATALOGUE.target("samd21e15a").orElseThrow();
  private static final Target D10 = CATALOGUE.target("samd10c13a").orElseThrow();

  /** The halves of the clock that BAUD and BAUDLOW stand for: five clocks more than each. */
  private record Halves(long rate) {
    long low() {
      return (rate >> 8) + 5;
    }

    long high() {
      return (rate & 0xFF) + 5;
    }
  }

  private static BusPlan planned(Target target, long clockHz, int speedHz) {
    var loop =
        LoopText.loop(
            "  speed_hz: " + speedHz + "\n", "alarm: {threshold: 1}\nbus_driver: polled\n");
    return BusPlan.of(loop, target, clockHz);
  }

  // Microchip online docs, "Clock Generation (Standard-Mode, Fast-Mode, and Fast-Mode Plus)":
  // fSCL = fGCLK / (10 + 2 BAUD + fGCLK tRISE); 48 MHz, BAUD 53 and 90 ns give 398.94 kHz (F-067).
  @Test
  void example_ofTheManual_isMetWithOtherHalves() {
    int withoutRise = 48_000_000 / (10 + 2 * 53) + 1;
    Recipe.Outcome outcome =
        D21.family()
            .busPort()
            .controller()
            .orElseThrow()
            .timing()
            .solve(
                Map.of(
                    "clock", Ratio.of(48_000_000),
                    "speed", Ratio.of(withoutRise),
                    "low_us", Ratio.of(new BigDecimal("1.3")),
                    "high_us", Ratio.of(new BigDecimal("0.6")),
                    "start_us", Ratio.of(new BigDecimal("0.6"))));
    Halves halves = new Halves(outcome.constants().get("BUS_RATE"));

    assertEquals(398_940, 1 / (1 / outcome.real("hz") + 90e-9), 10);
    assertEquals(2 * (53 + 5), halves.low() + halves.high());
    assertTrue((53 + 5) / 48.0 < 1.3, "the example is below the low time of Fast-mode, UM10204");
    assertTrue(halves.low() / 48.0 >= 1.3, halves.toString());
  }

  // UM10204 Rev 7, "Characteristics of the SDA and SCL bus lines": 4.7 and 4.0 us, 1.3 and 0.6 us.
  @ParameterizedTest
  @CsvSource({
    "8000000, 100000, 40, 40, 100000",
    "8000000, 400000, 11, 9, 400000",
    "4000000, 400000, 6, 5, 363636",
    "2000000, 100000, 10, 10, 100000",
    "1000000, 100000, 6, 5, 90909",
    "8000000, 20000, 200, 200, 20000"
  })
  void halves_keepTheMinimaOfTheBus(long clockHz, int speedHz, long low, long high, double hz) {
    BusPlan plan = planned(D10, clockHz, speedHz);
    Halves halves = new Halves(plan.constants().get("BUS_RATE"));

    assertEquals(low, halves.low());
    assertEquals(high, halves.high());
    assertEquals(hz, plan.hz(), 1);
    assertTrue(halves.low() * 1e6 / clockHz >= (speedHz <= 100_000 ? 4.7 : 1.3));
    assertTrue(halves.high() * 1e6 / clockHz >= (speedHz <= 100_000 ? 4.0 : 0.6));
  }

  @Test
  void speed_belowWhatEightBitsReach_isRefused() {
    assertThrows(Lacking.class, () -> planned(D10, 8_000_000, 15_000));
  }

  // Atmel-42181G, table 24-2, asynchronous arithmetic, at second hand: BAUD = 65536 (1 - 16 fBAUD /
  // fREF); 48 MHz: F-068. The constant is 65536, not 65535 (D-09).
  @ParameterizedTest
  @CsvSource({"48000000, 9600, 65326", "48000000, 115200, 63019", "1000000, 9600, 55470"})
  void serialDivider_isThatOfTheEquation(long clockHz, int baud, long divider) {
    Serial serial = Serial.of(D21, clockHz, baud);

    assertEquals(divider, serial.constants().get("SERIAL_DIVIDER"));
    assertTrue(Math.abs(serial.error()) < 0.002, serial.toString());
  }

  @Test
  void serialRate_aboveASixteenthOfTheClock_isRefused() {
    assertThrows(Lacking.class, () -> Serial.of(D21, 1_000_000, 115_200));
  }

  // Data sheets, "WDT", CONFIG.PER: 8 to 16384 clocks of 1.024 kHz; from memory.
  @ParameterizedTest
  @CsvSource({"7, 0", "8, 1", "2000, 8", "2001, 9", "16000, 11"})
  void watchdog_waitsAtLeastAsLong(int ms, long timeout) {
    Guard guard = Guard.of(D21.family().watchdog(), ms);

    assertEquals(timeout, guard.constants().get("WATCHDOG_TIMEOUT"));
    assertTrue((8 << timeout) / 1.024 >= ms, guard.toString());
  }
}
