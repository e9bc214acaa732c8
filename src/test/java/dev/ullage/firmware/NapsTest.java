package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Family;
import java.util.Map;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

class NapsTest {
  private static final Catalogue CATALOGUE = Catalogue.load();

  // Window times divider by 128 kHz, as in the maker's example of Standby for CH32V003, where 25
  // counts of a 10240th are two seconds (EVT/EXAM/PWR/Standby_Mode of openwch/ch32v003). Code 11
  // is 1024.
  @Test
  void window_isOfTheDividedOscillator() {
    Naps naps = Naps.of(family("ch32v003f4p6"), 2000, 0, OptionalInt.empty());
    assertEquals(Map.of("NAP_PRESCALER", 11L, "NAP_WINDOW", 50L), naps.constants());
    assertEquals(50 * 1024 / 128.0, naps.ms(), 1e-9);
    assertEquals(5, naps.count());
  }

  @Test
  void naps_areShorterThanHalfOfTheWatchdogsTime_andMakeUpThePeriod() {
    for (String part :
        new String[] {"ch32v003f4p6", "stm32l011f4", "stm32c011f4", "nrf51822_xxaa"}) {
      for (int periodMs : new int[] {100, 900, 5_000, 600_000}) {
        Naps naps = Naps.of(family(part), periodMs, 10, OptionalInt.of(1000));
        assertTrue(naps.ms() <= 510, part + " " + naps);
        assertEquals(periodMs - 10, naps.count() * naps.ms(), 0.02 * periodMs, part + " " + naps);
      }
    }
  }

  @Test
  void longPeriods_takeSeveralNaps() {
    Naps naps = Naps.of(family("stm32l011f4"), 600_000, 0, OptionalInt.empty());
    // 32768 sixteenths of 37 kHz are 14 s.
    assertEquals(43, naps.count());
    assertEquals(600_000, naps.count() * naps.ms(), 600);
  }

  @Test
  void watchdogThatWakesThePart_napsForItsTimeouts() {
    Naps naps = Naps.of(family("attiny85"), 2000, 50, OptionalInt.of(2000));
    assertEquals(1, naps.count());
    assertEquals(2000, naps.ms(), 1e-9);
  }

  @Test
  void watchdogThatIsTooQuickForAnyNap_isLacking() {
    assertThrows(
        Lacking.class, () -> Naps.of(family("stm32l011f4"), 600_000, 0, OptionalInt.of(1)));
  }

  private static Family family(String part) {
    return CATALOGUE.target(part).orElseThrow().family();
  }
}
