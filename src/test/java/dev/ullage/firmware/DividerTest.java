package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.target.Timer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Dividers against the tables of the data sheets. */
class DividerTest {
  private static final Target MEGA328P = Catalogue.load().target("atmega328p").orElseThrow();

  // Microchip online docs, "Bit Rate Generator", table "CPU and SCL Frequencies versus Bit Rate
  // Generator Register Settings" (F-060).
  @ParameterizedTest
  @CsvSource({
    "16000000, 100000, 72",
    "8000000, 100000, 32",
    "12000000, 100000, 52",
    "1000000, 50000, 2"
  })
  void bitRate_isThatOfTheDataSheet(long clockHz, int speedHz, long rate) {
    var loop = LoopText.loop("  speed_hz: " + speedHz + "\n", "alarm: {threshold: 1}\n");

    BusPlan plan = BusPlan.of(loop, MEGA328P, clockHz);

    assertEquals(rate, plan.constants().get("BUS_BIT_RATE"));
    assertEquals(speedHz, plan.hz(), 1e-6);
  }

  // The same table has 12, 2 and 7 for 400 kHz, whose low time is below that of Fast-mode, 1.3 us:
  // ATmega48/88/168 data sheet 7530K, "2-wire Serial Bus Requirements", note 7, says 308 kHz at 8
  // MHz.
  @ParameterizedTest
  @CsvSource({"16000000, 15, 347826", "8000000, 5, 307692", "12000000, 10, 333333"})
  void bitRate_keepsTheLowTimeOfFastMode(long clockHz, long rate, double hz) {
    var loop = LoopText.loop("  speed_hz: 400000\n", "alarm: {threshold: 1}\n");

    BusPlan plan = BusPlan.of(loop, MEGA328P, clockHz);

    assertEquals(rate, plan.constants().get("BUS_BIT_RATE"));
    assertEquals(hz, plan.hz(), 1);
  }

  // Atmel ATmega48/88/168 2545D, Tables 83 and 84, U2X = 1 (F-069, F-070).
  @ParameterizedTest
  @CsvSource({
    "16000000, 2400, 832, 0.0", "16000000, 9600, 207, 0.2", "16000000, 19200, 103, 0.2",
    "16000000, 38400, 51, 0.2", "16000000, 57600, 34, -0.8", "8000000, 2400, 416, -0.1",
    "8000000, 9600, 103, 0.2", "8000000, 19200, 51, 0.2", "8000000, 38400, 25, 0.2"
  })
  void serialDivider_isThatOfTheDataSheet(long clockHz, int baud, long divider, double percent) {
    Serial serial = Serial.of(MEGA328P, clockHz, baud);

    assertEquals(divider, serial.constants().get("SERIAL_DIVIDER"));
    assertEquals(percent, 100 * serial.error(), 0.05);
  }

  // The same tables print 2.1 % and -3.5 % for these.
  @ParameterizedTest
  @CsvSource({"16000000, 115200, 2.1", "16000000, 230400, -3.5", "8000000, 57600, 2.1"})
  void serialError_aboveTwoPerCent_isRefusedWithItsFigure(long clockHz, int baud, String percent) {
    Lacking lacking = assertThrows(Lacking.class, () -> Serial.of(MEGA328P, clockHz, baud));

    assertTrue(lacking.lack().reason().contains(percent), lacking.lack().reason());
  }

  // Microchip online docs, 18.7.2 "CTC Mode": f = clk / (2 N (1 + OCR)) (F-076).
  @Test
  void tone_isThatOfTheDataSheetsEquation() {
    Timer wide = timer(16);
    Timer narrow = timer(8);

    assertEquals(3999, Tone.nearest(wide, 16_000_000, 2000).top());
    assertEquals(2000, Tone.nearest(wide, 16_000_000, 2000).hz(), 1e-9);
    assertEquals(124, Tone.nearest(narrow, 16_000_000, 1000).top());
    assertEquals(64, Tone.nearest(narrow, 16_000_000, 1000).prescaler());
    // No 8-bit divider gives 2000 Hz: 61 gives 2016.13 Hz, 62 gives 1984.13 Hz.
    assertEquals(2000, Tone.nearest(narrow, 16_000_000, 2000).hz(), 2016.13 - 2000);
  }

  // Atmel-8271H, section 24.4: 50 to 200 kHz for full resolution; 16 MHz needs 128 (F-074).
  @ParameterizedTest
  @CsvSource({"16000000, 128", "8000000, 64", "1000000, 8"})
  void converterClock_isInTheRangeOfFullResolution(long clockHz, int divider) {
    var loop =
        LoopText.loop("", "alarm: {knob: {from: 1, to: 9}}\nboard: {clock_hz: " + clockHz + "}\n");

    Firmware firmware = ((Plan.Possible) Plan.of(loop, MEGA328P)).firmware();

    assertTrue(
        firmware.constants().stream()
            .anyMatch(
                each ->
                    each.name().equals("KNOB_PRESCALE")
                        && each.why().endsWith("divided by " + divider)));
  }

  private static Timer timer(int bits) {
    return MEGA328P.family().timers().stream()
        .filter(each -> each.bits() == bits)
        .findFirst()
        .orElseThrow();
  }
}
