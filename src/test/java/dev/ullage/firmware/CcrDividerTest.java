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

/** Dividers of parts whose two-wire controller counts with CCR, against the makers' tables. */
class CcrDividerTest {
  private static final Catalogue CATALOGUE = Catalogue.load();

  private static Target part(String name) {
    return CATALOGUE.target(name).orElseThrow();
  }

  private static BusPlan planned(String part, long clockHz, int speedHz) {
    var loop =
        LoopText.loop(
            "  speed_hz: " + speedHz + "\n", "alarm: {threshold: 1}\nbus_driver: polled\n");
    return BusPlan.of(loop, part(part), clockHz);
  }

  private static String reason(String part, long clockHz, int speedHz) {
    return assertThrows(Lacking.class, () -> planned(part, clockHz, speedHz)).lack().reason();
  }

  // STM32F103x8/xB data sheet, DocID13587 Rev 16, Table 41, "SCL frequency" at 36 MHz (F-062). Of
  // STM32F1 itself all but the row of 100 kHz: see the erratum below.
  @ParameterizedTest
  @CsvSource({
    "stm32f103c8, 400000, 0x801E",
    "stm32f103c8, 300000, 0x8028",
    "stm32f103c8, 200000, 0x803C",
    "stm32f103c8, 50000, 0x0168",
    "stm32f103c8, 20000, 0x0384",
    "gd32vf103c8t6, 400000, 0x801E",
    "gd32vf103c8t6, 100000, 0x00B4",
    "ch32v203c8t6, 200000, 0x803C",
    "ch32v203c8t6, 100000, 0x00B4"
  })
  void divider_isThatOfTheDataSheet(String part, int speedHz, String ccr) {
    BusPlan bus = planned(part, 36_000_000, speedHz);

    assertEquals(Long.decode(ccr), bus.constants().get("BUS_RATE"));
    assertEquals(speedHz, bus.hz(), 0.5);
  }

  // Reference manual, I2C_CCR and I2C_TRISE: 8 MHz make 0x28 for 100 kHz, and TRISE is 9 (F-063);
  // 16 MHz make 0x50 and 0x11 (F-078). 36 MHz in Fast-mode: 300 ns are 10.8 clocks, so 11.
  @ParameterizedTest
  @CsvSource({
    "8000000, 100000, 0x28, 9, 8",
    "16000000, 100000, 0x50, 17, 16",
    "36000000, 400000, 0x801E, 11, 36"
  })
  void riseTime_isThatOfTheManual(
      long clockHz, int speedHz, String ccr, long rise, long frequency) {
    Map<String, Long> words = planned("gd32vf103c8t6", clockHz, speedHz).constants();

    assertEquals(Long.decode(ccr), words.get("BUS_RATE"));
    assertEquals(rise, words.get("BUS_RISE_TIME"));
    assertEquals(frequency, words.get("BUS_FREQUENCY"));
  }

  // UM10204 Rev 7, "Characteristics of the SDA and SCL bus lines": in Fast-mode low takes 1.3 us at
  // least, high 0.6 us (F-002, F-003). DUTY 0 makes low twice as long as high.
  @ParameterizedTest
  @CsvSource({
    "stm32f103c8, 4000000", "stm32f103c8, 8000000", "gd32vf103c8t6, 8000000",
    "gd32vf103c8t6, 32000000", "ch32v003f4p6, 8000000", "ch32v003f4p6, 48000000"
  })
  void fastMode_keepsTheMinima(String part, long clockHz) {
    BusPlan bus = planned(part, clockHz, 400_000);
    long word = bus.constants().get("BUS_RATE");
    double us = (word & 0xFFF) * 1e6 / clockHz;

    assertEquals(0x8000, word & 0xF000, "Fast-mode, DUTY 0");
    assertTrue((word & 0xFFF) >= 4, "the least that is allowed: RM0008, 26.6.8");
    assertTrue(us >= 0.6 && 2 * us >= 1.3, us + " us");
    assertTrue(bus.hz() <= 400_000);
  }

  // Errata sheet ES0340, "Mismatch on the Setup time for a repeated Start condition timing
  // parameter": Standard-mode at 88 kHz at most.
  @ParameterizedTest
  @CsvSource({"8000000, 46", "16000000, 91", "36000000, 205"})
  void stm32f1_staysBelow88kHz(long clockHz, long ccr) {
    BusPlan bus = planned("stm32f103c8", clockHz, 100_000);

    assertEquals(ccr, bus.constants().get("BUS_RATE"));
    assertTrue(bus.hz() <= 88_000 && bus.hz() > 86_000, bus.hz() + " Hz");
  }

  // The least clock of the controller: RM0008 26.6.2 has 2 MHz, and 4 MHz for Fast-mode; GD32VF103
  // user manual, I2C_CTL1, 2 and 8 MHz; CH32V003 reference manual, I2C_CTLR2, 8 MHz. The latter two
  // from memory, but for CH32V003.
  @ParameterizedTest
  @CsvSource({
    "stm32f103c8, 1000000, 2000000, 50000",
    "stm32f103c8, 2000000, 4000000, 400000",
    "gd32vf103c8t6, 1000000, 2000000, 50000",
    "gd32vf103c8t6, 4000000, 8000000, 400000",
    "ch32v003f4p6, 6000000, 8000000, 50000",
    "ch32v103c8t6, 4000000, 8000000, 100000",
    "ch32v203c8t6, 4000000, 8000000, 400000"
  })
  void slowClock_isRefused(String part, long tooSlow, long enough, int speedHz) {
    assertTrue(reason(part, tooSlow, speedHz).contains("two-wire controller cannot make"));
    assertTrue(planned(part, enough, speedHz).hz() <= speedHz);
  }

  // UM10204 Rev 7, tBUF: 4.7 us in Standard-mode (F-008). A turn takes three cycles on Cortex-M3,
  // two where branches are foretold.
  @Test
  void busStaysFree_longEnough() {
    assertTrue(turns("stm32f103c8", 8_000_000) * 3 >= 4.7 * 8);
    assertTrue(turns("gd32vf103c8t6", 32_000_000) * 2 >= 4.7 * 32);
    assertTrue(turns("ch32v003f4p6", 48_000_000) * 2 >= 4.7 * 48);
  }

  private static long turns(String part, long clockHz) {
    return planned(part, clockHz, 100_000).constants().get("BUS_HALF_BIT");
  }

  // RM0390 Rev 4, Tables 149 and 151 (F-071, F-153), and RM0360 Rev 5, USART examples (F-072):
  // USARTDIV times 16, as in RM0008 27.3.4 and the manuals of CH32V and GD32VF103.
  @ParameterizedTest
  @CsvSource({
    "8000000, 9600, 0x341, 0.04", "8000000, 115200, 69, 0.64", "16000000, 9600, 0x683, 0.02",
    "16000000, 57600, 278, 0.08", "16000000, 115200, 0x8B, 0.08", "16000000, 230400, 69, 0.64"
  })
  void serialDivider_isThatOfTheManual(long clockHz, int baud, String divider, double percent) {
    for (String part : new String[] {"stm32f103c8", "gd32vf103c8t6", "ch32v003f4p6"}) {
      Serial serial = Serial.of(part(part), clockHz, baud);

      assertEquals(Long.decode(divider), serial.constants().get("SERIAL_DIVIDER"));
      assertEquals(percent, 100 * Math.abs(serial.error()), 0.01);
    }
  }

  // RM0008 Rev 21, Table 96, "Min/max IWDG timeout period at 40 kHz": 409.6 ms with /4 up to
  // 26214.4 ms with /256; from memory. CH32V003 counts 128 kHz: 128 ms up to 8192 ms.
  @ParameterizedTest
  @CsvSource({
    "stm32f103c8, 409, 0, 4089",
    "stm32f103c8, 410, 1, 2049",
    "stm32f103c8, 26214, 6, 4095",
    "gd32vf103c8t6, 820, 2, 2049",
    "ch32v103c8t6, 13107, 5, 4095",
    "ch32v003f4p6, 128, 0, 4095",
    "ch32v003f4p6, 129, 1, 2063",
    "ch32v003f4p6, 8192, 6, 4095"
  })
  void watchdog_takesTheShortestDividerThatReaches(
      String part, int ms, long prescaler, long reload) {
    Guard guard = Guard.of(part(part).family().watchdog(), ms);

    assertEquals(prescaler, guard.constants().get("WATCHDOG_PRESCALER"));
    assertEquals(reload, guard.constants().get("WATCHDOG_RELOAD"));
    assertEquals(ms, guard.realMs(), 0.01 * ms);
  }

  @Test
  void watchdog_longerThanThereIs_isRefused() {
    assertThrows(Lacking.class, () -> Guard.of(part("stm32f103c8").family().watchdog(), 26_215));
    assertThrows(Lacking.class, () -> Guard.of(part("ch32v003f4p6").family().watchdog(), 8_193));
  }
}
