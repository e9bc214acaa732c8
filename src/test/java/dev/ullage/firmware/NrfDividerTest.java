package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Board.Role;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Rates of nRF51 against the words that the maker publishes for them: header {@code
 * nrf51_bitfields.h}, {@code UART_BAUDRATE_BAUDRATE_Baud...} and {@code
 * TWI_FREQUENCY_FREQUENCY_K...}.
 */
class NrfDividerTest {
  private static final Target NRF51 = Catalogue.load().target("nrf51822_xxaa").orElseThrow();
  private static final long CLOCK = 16_000_000;

  @ParameterizedTest
  @CsvSource({
    "1200, 0x0004F000", "2400, 0x0009D000", "4800, 0x0013B000", "9600, 0x00275000",
    "14400, 0x003B0000", "19200, 0x004EA000", "28800, 0x0075F000", "31250, 0x00800000",
    "38400, 0x009D5000", "57600, 0x00EBF000", "76800, 0x013A9000", "115200, 0x01D7E000",
    "230400, 0x03AFB000", "250000, 0x04000000", "460800, 0x075F7000", "1000000, 0x10000000"
  })
  void rate_isThePublishedWord(int baud, String word) {
    Serial serial = Serial.of(NRF51, CLOCK, baud);

    assertEquals(Long.decode(word), serial.constants().get("SERIAL_RATE"));
    assertTrue(Math.abs(serial.error()) < 0.005, baud + " baud is off by " + serial.error());
  }

  /** These published words are cut off rather than rounded. */
  @ParameterizedTest
  @CsvSource({"56000, 0x00E50000, 0.002", "921600, 0x0EBED000, 0.00002"})
  void rate_isNearThePublishedWordThatIsCutOff(int baud, String word, double error) {
    double ours = Serial.of(NRF51, CLOCK, baud).constants().get("SERIAL_RATE");

    assertEquals(1, Long.decode(word) / ours, error);
    assertTrue(ours > Long.decode(word));
  }

  @ParameterizedTest
  @CsvSource({"1000", "1100000"})
  void rate_outsideThePublishedOnesIsRefused(int baud) {
    assertThrows(Lacking.class, () -> Serial.of(NRF51, CLOCK, baud));
  }

  /** K100 is a little slower than its name, so that its halves are above 4.7 and 4.0 us. */
  @ParameterizedTest
  @CsvSource({
    "100000, 0x01980000, 99609",
    "249999, 0x01980000, 99609",
    "250000, 0x04000000, 250000",
    "400000, 0x04000000, 250000"
  })
  void bus_hasThePublishedWordThatKeepsTheLeastTimes(int speedHz, String word, double hz) {
    BusPlan plan = bus(speedHz);

    assertEquals(Long.decode(word), plan.constants().get("BUS_FREQUENCY"));
    assertEquals(hz, plan.hz(), 1);
  }

  @Test
  void bus_slowerThanTheSlowestWordIsRefused() {
    assertThrows(Lacking.class, () -> bus(99_999));
  }

  private static BusPlan bus(int speedHz) {
    return BusPlan.of(
        LoopText.loop(
            "  speed_hz: " + speedHz + "\n", "alarm: {threshold: 1}\nbus_driver: polled\n"),
        NRF51,
        CLOCK);
  }

  /** Whatever pins the loop file names; the others get what is left. */
  @Test
  void pins_areFreeToChoose() {
    var loop =
        LoopText.loop(
            "",
            """
            alarm: {threshold: 1}
            outputs: {sounder: {tone_hz: 2700}}
            extras: {report: {baud: 9600}}
            board: {pins: {scl: P0.30, sounder: P0.08, transmit: P0.00}}
            """);

    Firmware firmware = ((Plan.Possible) Plan.of(loop, NRF51)).firmware();

    assertEquals("P0.30", firmware.pins().get(Role.SCL).name());
    assertEquals("P0.07", firmware.pins().get(Role.SDA).name());
    assertEquals("P0.08", firmware.pins().get(Role.SOUNDER).name());
    assertEquals("P0.00", firmware.pins().get(Role.TRANSMIT).name());
    assertEquals(30, firmware.pins().get(Role.SCL).number());
  }

  /** (CRV + 1) / 32768 s; the least CRV is 15. */
  @ParameterizedTest
  @CsvSource({"2000, 65535, 2000", "1000, 32767, 1000", "1, 32, 1"})
  void watchdog_countsAt32768Hz(int ms, long reload, long realMs) {
    Guard guard = Guard.of(NRF51.family().watchdog(), ms);

    assertEquals(reload, guard.constants().get("WATCHDOG_RELOAD"));
    assertEquals(realMs, guard.realMs());
  }
}
