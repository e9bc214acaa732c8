package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.LoopReader;
import dev.ullage.proof.SimulatedBoard.Result;
import dev.ullage.target.Catalogue;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Emitted firmware on simulated parts (simavr 1.6), with a sensor, a knob, a lamp and a sounder.
 *
 * <p>Timer1 of the ATtiny85 and the two-wire controller are models of our own, made from the data
 * sheets ({@code missing.c}, {@code twi.c}): the simulator lacks the one and errs in the other.
 */
class SimulationTest {
  // I2C-bus specification UM10204 Rev. 7, "Characteristics of the SDA and SCL bus lines", in
  // nanoseconds. `period` is that of the fastest clock of the mode.
  private static final Map<String, Long> STANDARD =
      Map.of(
          "tLOW", 4_700L,
          "tHIGH", 4_000L,
          "tHD;STA", 4_000L,
          "tSU;STA", 4_700L,
          "tSU;STO", 4_000L,
          "tSU;DAT", 250L,
          "tBUF", 4_700L,
          "period", 10_000L);
  private static final Map<String, Long> FAST =
      Map.of(
          "tLOW", 1_300L,
          "tHIGH", 600L,
          "tHD;STA", 600L,
          "tSU;STA", 600L,
          "tSU;STO", 600L,
          "tSU;DAT", 100L,
          "tBUF", 1_300L,
          "period", 2_500L);

  private static final UnaryOperator<String> AS_IT_IS = text -> text;

  // Cold store: 11 bits, left-aligned, 0.125 degC each.
  private static final String COLD = "frame 04 00"; // 4 degC
  private static final String WARM = "frame 14 00"; // 20 degC
  private static final String KNOB_AT_7 = "knob 2500"; // the middle of 2 to 12 degC

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
  void beeHiveOnTheSmallestPart_alarmsAtTheExactReading() throws IOException {
    List<String> script =
        List.of(
            "knob 0",
            grid(1920),
            grid(1921),
            grid(1920),
            grid(1857),
            grid(1856),
            grid(1920),
            "knob 5000",
            grid(2880),
            grid(2881),
            grid(-800),
            grid(-800));
    Result result = board.play(plan("bee-hive", "attiny13a", AS_IT_IS), 0, script);
    assertAll(
        () -> assertEquals(".###...#.", result.seen().alarms()),
        () -> keepsTime(result.seen(), 2),
        () -> keepsRules(result.seen(), STANDARD),
        () -> stackHolds("bee-hive on attiny13a", result));
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
  void coldStore_alarmsAtTheRightReading(String part, String driver) throws IOException {
    List<String> script = script(KNOB_AT_7, 3, COLD, 8, WARM, 11, COLD);
    Result result = board.play(plan("cold-store", part, driven(driver)), 0, script);
    assertAll(
        () -> assertEquals(".".repeat(6) + "#".repeat(13) + "..", result.seen().alarms()),
        () -> keepsTime(result.seen(), 20),
        () -> beeps(result.seen(), 200, 500),
        () -> keepsRules(result.seen(), STANDARD),
        () -> stackHolds("cold-store on " + part + ", " + driver, result));
  }

  /** Five faults in a row are allowed: the sixth raises the alarm, three good readings end it. */
  @ParameterizedTest
  @CsvSource({"attiny85, bitbang", "atmega328p, polled", "atmega328p, buffered"})
  void sensorThatDoesNotAnswer_raisesTheAlarmWhenTooManyFail(String part, String driver)
      throws IOException {
    List<String> script = script(KNOB_AT_7, 2, COLD, 5, "nack", 1, COLD, 7, "nack", 5, COLD);
    Result result = board.play(plan("cold-store", part, driven(driver)), 0, script);
    assertAll(
        () -> assertEquals("........" + "....." + "####" + "..", result.seen().alarms()),
        () -> keepsRules(result.seen(), STANDARD),
        () -> stackHolds("no sensor on " + part + ", " + driver, result));
  }

  /** A sensor cut off within a byte is clocked free at once; a held line costs readings only. */
  @ParameterizedTest
  @CsvSource({
    "midbyte, 1, attiny85, bitbang",
    "midbyte, 1, atmega328p, polled",
    "midbyte, 1, atmega328p, buffered",
    "hold data 2500, 4, attiny85, bitbang",
    "hold data 2500, 4, atmega328p, polled",
    "hold clock 2500, 4, attiny85, bitbang",
    "hold clock 2500, 4, atmega328p, buffered"
  })
  void heldBus_isFreedAndReadAgain(String fault, int periods, String part, String driver)
      throws IOException {
    List<String> script = List.of(KNOB_AT_7, COLD, COLD, fault, WARM, WARM, WARM, WARM, WARM, COLD);
    Result result = board.play(plan("cold-store", part, driven(driver)), 0, script);
    double pause = result.seen().periodsMs().get(1);
    assertAll(
        () -> assertEquals("....." + "##", result.seen().alarms()),
        () -> assertTrue(pause < periods * 1_010.0, () -> pause + " ms"),
        () -> keepsRules(result.seen(), STANDARD),
        () -> stackHolds(fault + " on " + part + ", " + driver, result));
  }

  /** The sensor holds the clock for 300 us after each byte that it takes. */
  @Test
  void sensorThatHoldsTheClock_isWaitedFor() throws IOException {
    List<String> script = List.of(KNOB_AT_7, COLD, WARM, WARM, WARM, WARM, WARM);
    Result result = board.play(plan("cold-store", "attiny85", AS_IT_IS), 300_000, script);
    assertAll(
        () -> assertEquals("....#", result.seen().alarms()),
        () -> keepsRules(result.seen(), STANDARD));
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
  void bitBangedBus_keepsTheTimesOfItsMode(String part, int clockHz, int speedHz)
      throws IOException {
    UnaryOperator<String> change =
        text ->
            driven("bitbang")
                    .apply(text)
                    .replace("  address: 0x48\n", "  address: 0x48\n  speed_hz: " + speedHz + "\n")
                + "board: {supply_v: 5, clock_hz: "
                + clockHz
                + "}\n";
    Result result = board.play(plan("cold-store", part, change), 0, List.of("frame A5 3C"));
    assertEquals(1, result.seen().readings().size());
    keepsRules(result.seen(), speedHz > 100_000 ? FAST : STANDARD);
  }

  private static void keepsTime(Seen seen, double blinksAtLeast) {
    assertAll(
        seen.periodsMs().stream().map(ms -> () -> assertEquals(1_000, ms, 10, "period in ms")));
    assertTrue(seen.blinksMs().size() >= blinksAtLeast, () -> "blinks: " + seen.blinksMs());
    assertAll(seen.blinksMs().stream().map(ms -> () -> assertEquals(250, ms, 5, "blink in ms")));
    List<Seen.Tone> whole = seen.tones().stream().filter(tone -> tone.edges() > 100).toList();
    assertFalse(whole.isEmpty(), "no tone");
    assertAll(whole.stream().map(tone -> () -> assertEquals(2_700, tone.hz(), 54, "tone in Hz")));
  }

  /** All tones but the first and the last of the alarm. */
  private static void beeps(Seen seen, int onMs, int everyMs) {
    List<Seen.Tone> tones = seen.tones();
    for (int i = 1; i + 2 < tones.size(); i++) {
      Seen.Tone tone = tones.get(i);
      assertEquals(onMs, (tone.end() - tone.begin()) / 1000.0, 0.02 * onMs, "beep in ms");
      assertEquals(
          everyMs, (tones.get(i + 1).begin() - tone.begin()) / 1000.0, 0.02 * everyMs, "beeps");
    }
  }

  private static void keepsRules(Seen seen, Map<String, Long> leastNs) {
    assertEquals(List.of(), seen.violations());
    assertAll(
        leastNs.entrySet().stream()
            .map(
                rule ->
                    () -> {
                      long ns = seen.leastNs().get(rule.getKey());
                      assertTrue(ns == 0 || ns >= rule.getValue(), () -> rule + ", seen " + ns);
                    }));
  }

  private static void stackHolds(String what, Result result) {
    int bound = result.linked().stack().bytes();
    int seen = result.seen().stack();
    System.out.printf("simulation, %s: stack %d, bound %d%n", what, seen, bound);
    assertTrue(seen <= bound, () -> "stack " + seen + " is above the bound " + bound);
    assertTrue(seen >= bound - 4, () -> "stack " + seen + " is far below the bound " + bound);
  }

  private static UnaryOperator<String> driven(String driver) {
    return text -> text + "\nbus_driver: " + driver + "\n";
  }

  private static Firmware plan(String sample, String part, UnaryOperator<String> change)
      throws IOException {
    Path file = Path.of("generated-samples", sample, sample + ".yaml");
    Plan plan =
        Plan.of(
            LoopReader.read(sample + ".yaml", change.apply(Files.readString(file))),
            Catalogue.load().target(part).orElseThrow());
    return ((Plan.Possible) plan).firmware();
  }

  /** Sixteen pixels with this sum, as even as can be. */
  private static String grid(int sum) {
    StringBuilder frame = new StringBuilder("frame");
    for (int pixel = 0; pixel < 16; pixel++) {
      int raw = Math.floorDiv(sum + pixel, 16) & 0xFFF;
      frame.append(String.format(" %02X %02X", raw & 0xFF, raw >> 8));
    }
    return frame.toString();
  }

  /** First line, then numbers of times and what to say so often. */
  private static List<String> script(String first, Object... timesAndLines) {
    List<String> lines = new ArrayList<>(List.of(first));
    for (int i = 0; i < timesAndLines.length; i += 2) {
      lines.addAll(Collections.nCopies((int) timesAndLines[i], (String) timesAndLines[i + 1]));
    }
    return lines;
  }
}
