package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Dividers of STM32 parts against the tables of the reference manuals. */
class StmDividerTest {
  private static final Catalogue CATALOGUE = Catalogue.load();
  private static final Target F030 = CATALOGUE.target("stm32f030f4").orElseThrow();
  private static final Target G030 = CATALOGUE.target("stm32g030f6").orElseThrow();
  private static final Target L011 = CATALOGUE.target("stm32l011f4").orElseThrow();

  /** A timing word and what its fields come to: RM0360 Rev 5, 22.4.11 and 22.7.5. */
  private record Word(long value, long clockHz) {
    int lowNs() {
      return ns(field(0, 0xFF) + 1);
    }

    int highNs() {
      return ns(field(8, 0xFF) + 1);
    }

    int setUpNs() {
      return ns(field(20, 0xF) + 1);
    }

    private int ns(long ticks) {
      return (int) (ticks * (field(28, 0xF) + 1) * 1_000_000_000 / clockHz);
    }

    private long field(int place, int mask) {
      return value >> place & mask;
    }
  }

  private static Word planned(Target target, long clockHz, int speedHz) {
    var loop =
        LoopText.loop(
            "  speed_hz: " + speedHz + "\n", "alarm: {threshold: 1}\nbus_driver: polled\n");
    return new Word(
        BusPlan.of(loop, target, clockHz).constants().get("BUS_TIMING"), timerHz(target, clockHz));
  }

  /** What the controller counts on: 8 MHz of its own in an STM32F0, else the clock of the core. */
  private static long timerHz(Target target, long clockHz) {
    return target == F030 ? 8_000_000 : clockHz;
  }

  // RM0360 Rev 5, Tables 75 and 77, "Examples of timings settings" for 8 and 48 MHz (F-064, F-065,
  // F-066): 5.0 us low and 4.0 us high at 100 kHz. Table 76, for 16 MHz, from memory.
  @ParameterizedTest
  @CsvSource({
    "8000000, 10000, 0x1042C3C7, 50000, 49000",
    "8000000, 100000, 0x10420F13, 5000, 4000",
    "16000000, 100000, 0x30420F13, 5000, 4000",
    "48000000, 10000, 0xB042C3C7, 50000, 49000",
    "48000000, 100000, 0xB0420F13, 5000, 4000"
  })
  void examplesOfTheManual_upTo100kHz_keepTheMinima(
      long clockHz, int speedHz, String example, int lowNs, int highNs) {
    Word manual = new Word(Long.decode(example), clockHz);
    Word ours = planned(clockHz == 8_000_000 ? F030 : G030, clockHz, speedHz);

    assertEquals(lowNs, manual.lowNs());
    assertEquals(highNs, manual.highNs());
    assertTrue(ours.lowNs() >= 4700 && ours.highNs() >= 4000, ours.toString());
    assertTrue(ours.setUpNs() >= 1250, "1000 ns of rise and 250 ns of set-up: " + ours);
    // The manual reaches the period with a synchronisation of 1000 ns. The least that it can be,
    // two filters of 50 ns and four clocks, makes the example's clock too fast, and not ours.
    double leastNs = 100 + 4e9 / clockHz;
    assertTrue(manual.lowNs() + manual.highNs() + leastNs < 1e9 / speedHz);
    assertEquals(1e9 / speedHz, ours.lowNs() + ours.highNs() + leastNs, 0.03e9 / speedHz);
    assertTrue(ours.lowNs() + ours.highNs() + leastNs >= 1e9 / speedHz, ours.toString());
  }

  // The same tables for 400 kHz: 1250 ns low and 500 ns high. UM10204 Rev 7, "Characteristics of
  // the SDA and SCL bus lines": at least 1300 and 600 ns (F-002, F-003). The manual counts on the
  // synchronisation for the rest; we do not (D-07).
  @ParameterizedTest
  @CsvSource({
    "8000000, 0x00310309, 1375, 625",
    "16000000, 0x10320309, 1437, 750",
    "48000000, 0x50330309, 1541, 833"
  })
  void examplesOfTheManual_for400kHz_breakTheMinima_oursDoNot(
      long clockHz, String example, int lowNs, int highNs) {
    Word manual = new Word(Long.decode(example), clockHz);
    Word ours = planned(clockHz == 8_000_000 ? F030 : G030, clockHz, 400_000);

    assertEquals(1250, manual.lowNs());
    assertEquals(500, manual.highNs());
    assertEquals(lowNs, ours.lowNs());
    assertEquals(highNs, ours.highNs());
    assertTrue(ours.setUpNs() >= 400, "300 ns of rise and 100 ns of set-up: " + ours);
  }

  // RM0360 Rev 5, 22.4.2: the clock must be faster than a quarter of the low time less the filter.
  @Test
  void slowClock_cannotMakeFastMode() {
    Lacking lacking = assertThrows(Lacking.class, () -> planned(G030, 2_000_000, 400_000));

    assertTrue(lacking.lack().reason().contains("400000 Hz"), lacking.lack().reason());
    assertTrue(planned(F030, 2_000_000, 400_000).lowNs() >= 1300, "has 8 MHz of its own");
  }

  // RM0360 Rev 5, USART examples (F-072); RM0390 Rev 4, Tables 149 and 151, oversampling by 16
  // (F-071, F-153): USARTDIV times 16.
  @ParameterizedTest
  @CsvSource({
    "8000000, 9600, 0x341, 0.04", "8000000, 115200, 69, 0.64", "8000000, 230400, 35, 0.79",
    "16000000, 9600, 0x683, 0.02", "16000000, 57600, 278, 0.08", "16000000, 115200, 0x8B, 0.08",
    "16000000, 230400, 69, 0.64", "48000000, 921600, 0x34, 0.16"
  })
  void serialDivider_isThatOfTheManual(long clockHz, int baud, String divider, double percent) {
    Serial serial = Serial.of(F030, clockHz, baud);

    assertEquals(Long.decode(divider), serial.constants().get("SERIAL_DIVIDER"));
    assertEquals(percent, 100 * Math.abs(serial.error()), 0.01);
  }

  // RM0360 Rev 5, "Min/max IWDG timeout period at 40 kHz": 409.6 ms with /4 up to 26214.4 ms with
  // /256; from memory.
  @ParameterizedTest
  @CsvSource({
    "409, 0, 4089",
    "410, 1, 2049",
    "819, 1, 4094",
    "820, 2, 2049",
    "3276, 3, 4094",
    "13107, 5, 4095",
    "26214, 6, 4095"
  })
  void watchdog_takesTheShortestDividerThatReaches(int ms, long prescale, long reload) {
    Guard guard = Guard.of(F030.family().watchdog(), ms);

    assertEquals(prescale, guard.constants().get("WATCHDOG_PRESCALE"));
    assertEquals(reload, guard.constants().get("WATCHDOG_RELOAD"));
    assertEquals(ms, guard.realMs(), 0.01 * ms);
  }

  @Test
  void watchdog_longerThanThereIs_isRefused() {
    assertThrows(Lacking.class, () -> Guard.of(F030.family().watchdog(), 26_215));
    assertEquals(28_000, Guard.of(L011.family().watchdog(), 28_000).realMs(), 10);
  }
}
