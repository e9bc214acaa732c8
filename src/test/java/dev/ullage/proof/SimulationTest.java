package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.firmware.Firmware;
import dev.ullage.proof.SimulatedBoard.Result;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A few runs of emitted firmware on a simulated board (simavr 1.6), worked out by hand. */
class SimulationTest {
  // Cold store: 11 bits, left-aligned, 0.125 degC each.
  private static final int[] COLD = {0x04, 0x00}; // 4 degC
  private static final int[] WARM = {0x14, 0x00}; // 20 degC
  private static final int KNOB_AT_7 = 2500; // the middle of 2 to 12 degC

  @TempDir static Path folder;
  private static SimulatedBoard board;

  @BeforeAll
  static void build() {
    board = new SimulatedBoard(folder);
  }

  /**
   * Counts of 0.25 degC; the sum of 16 is compared. Left stop: on above 30 degC = 1920, off at 29
   * degC = 1856. Right stop: on above 45 degC = 2880.
   */
  @Test
  void beeHiveOnTheSmallestPart_alarmsAtTheExactReading() {
    Script script = new Script().knob(0);
    for (int sum : new int[] {1920, 1921, 1920, 1857, 1856, 1920}) {
      script.frame(grid(sum));
    }
    script.knob(5000).frame(grid(2880)).frame(grid(2881)).frame(grid(-800));

    Result result =
        board.play(BoardCase.plan(BoardCase.sample("bee-hive", "auto"), "attiny13a"), script);

    assertAll(
        () -> assertEquals(".###.." + ".#.", result.seen().alarms()),
        () -> assertEquals(List.of(), BusRules.STANDARD.broken(result.seen())));
  }

  /**
   * Mean of eight: with the k-th warm reading it is 4 + 2 k degC, above 7 from k = 2 on; the third
   * such average trips. With the j-th cold one it is 20 - 2 j, at or below 6.5 from j = 7 on.
   */
  @ParameterizedTest
  @CsvSource({
    "attiny85, bitbang",
    "atmega328p, bitbang",
    "atmega328p, polled",
    "atmega328p, buffered"
  })
  void coldStore_alarmsAtTheRightReading(String part, String driver) {
    Script script =
        new Script()
            .knob(KNOB_AT_7)
            .times(3, each -> each.frame(COLD))
            .times(8, each -> each.frame(WARM))
            .times(10, each -> each.frame(COLD));

    Firmware firmware = BoardCase.plan(BoardCase.sample("cold-store", driver), part);

    assertEquals(
        ".".repeat(6) + "#".repeat(13) + "..", board.play(firmware, script).seen().alarms());
  }

  @ParameterizedTest
  @CsvSource({
    "attiny85, 1000000, 100000",
    "attiny85, 8000000, 100000",
    "attiny85, 8000000, 400000",
    "attiny85, 16000000, 100000",
    "attiny85, 16000000, 400000",
    "atmega328p, 4000000, 100000",
    "atmega328p, 16000000, 100000",
    "atmega328p, 20000000, 100000",
    "atmega328p, 20000000, 400000"
  })
  void bitBangedBus_keepsTheTimesOfItsMode(String part, int clockHz, int speedHz) {
    keepsTimes(part, "bitbang", clockHz, speedHz);
  }

  @ParameterizedTest
  @CsvSource({
    "polled, 4000000, 100000",
    "polled, 8000000, 400000",
    "buffered, 16000000, 400000",
    "buffered, 20000000, 100000"
  })
  void controller_keepsTheTimesOfItsMode(String driver, int clockHz, int speedHz) {
    keepsTimes("atmega328p", driver, clockHz, speedHz);
  }

  private static void keepsTimes(String part, String driver, int clockHz, int speedHz) {
    String text =
        BoardCase.sample("cold-store", driver)
                .replace("  address: 0x48\n", "  address: 0x48\n  speed_hz: " + speedHz + "\n")
            + "board: {supply_v: 5, clock_hz: "
            + clockHz
            + "}\n";
    Firmware firmware = BoardCase.plan(text, part);

    Seen seen = board.play(firmware, new Script().frame(0xA5, 0x3C)).seen();

    assertEquals(1, seen.stops().size());
    assertEquals(List.of(), BusRules.of(firmware.loop().sensor()).broken(seen));
  }

  /** Sixteen pixels with this sum, as even as can be, the low byte first. */
  private static int[] grid(int sum) {
    int[] bytes = new int[32];
    for (int pixel = 0; pixel < 16; pixel++) {
      int raw = Math.floorDiv(sum + pixel, 16) & 0xFFF;
      bytes[2 * pixel] = raw & 0xFF;
      bytes[2 * pixel + 1] = raw >> 8;
    }
    return bytes;
  }
}
