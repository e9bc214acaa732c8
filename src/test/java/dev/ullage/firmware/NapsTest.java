package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Family;
import dev.ullage.target.Target;
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
        new String[] {
          "ch32v003f4p6", "stm32l011f4", "stm32c011f4", "nrf51822_xxaa", "samd21e15a", "lpc812m101"
        }) {
      for (int periodMs : new int[] {100, 900, 5_000, 600_000}) {
        Naps naps = Naps.of(family(part), periodMs, 10, OptionalInt.of(1000));
        assertTrue(naps.ms() <= 510, part + " " + naps);
        assertEquals(periodMs - 10, naps.count() * naps.ms(), 0.02 * periodMs, part + " " + naps);
      }
    }
  }

  // An oscillator that is 40 % slow makes a nap 1.67 times as long, one that is 40 % fast barks
  // after
  // 0.71 of the time: half of it would be too long (UM10601 13.3 and 4.6.6).
  @Test
  void napsByAnOscillatorOfTheirOwn_areShorterThanAThirdOfTheWatchdogsTime() {
    Naps naps = Naps.of(family("lpc812m101"), 5_000, 10, OptionalInt.of(1000));
    assertTrue(naps.ms() / 0.6 < 1000 / 1.4, naps.toString());
    assertEquals(4_990, naps.count() * naps.ms(), 100);
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

  /** RP2040 has timers that could wake it; what it lacks is a port that naps by one. */
  @Test
  void portWithoutNaps_isSaidToBeThePortsFault() {
    Loop loop =
        LoopText.loop("", "alarm: {threshold: 1}\noutputs: {lamp: {}}\nextras: {sleep: deep}\n");
    Target part = CATALOGUE.targets().stream().filter(NapsTest::isRp2040).findFirst().orElseThrow();
    Plan.Impossible plan = assertInstanceOf(Plan.Impossible.class, Plan.of(loop, part));
    assertEquals(
        "deep sleep needs a timer that wakes the part, and its port uses none",
        plan.lack().reason());
  }

  private static boolean isRp2040(Target target) {
    return target.family().name().equals("rp2040");
  }

  private static Family family(String part) {
    return CATALOGUE.target(part).orElseThrow().family();
  }
}
