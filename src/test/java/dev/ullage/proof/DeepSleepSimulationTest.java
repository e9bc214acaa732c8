package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.proof.SimulatedBoard.Simulator;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * Deep sleep on parts with other cores than AVR: while there is no alarm the clock of the core
 * stands for most of the time, a slow timer wakes the part, and alarms and periods are those of a
 * part that stays awake. The models complain of a nap within a character or a transaction.
 */
class DeepSleepSimulationTest {
  private static final String ROOT_CELLAR =
      """
      loop: root cellar
      period_ms: 2000
      sensor:
        address: 0x4A
        frame: {sample_bytes: 1, signed: true}
        scale: {gain: 0.5, unit: degC}
      average: {over_time: block, readings: 3}
      alarm: {when: below, threshold: 1.5, hysteresis: 1}
      outputs: {lamp: {blink_ms: 250}}
      extras: {sleep: deep EXTRAS}
      board: {clock_hz: CLOCK}
      """;

  /** A sensor that takes its time between the question and the answer. */
  private static final String SLOW_CELLAR =
      ROOT_CELLAR.replace("frame:", "ask: [0x10]\n  restart: false\n  wait_ms: 40\n  frame:");

  private static final String REPORT = ", report: {baud: 9600, send: average}";
  private static final String WATCHED = ", watchdog_ms: 1000";

  /** Part, driver, clock: each way in which a port sets its clock. */
  private static final List<String> PLACES =
      List.of(
          "ch32v003f4p6 bitbang 8000000",
          "ch32v003f4p6 polled 48000000",
          "ch32v003f4p6 buffered 24000000",
          "stm32l011f4 bitbang 4194304",
          "stm32l011f4 polled 32000000",
          "stm32l011f4 buffered 16000000",
          "stm32g030f6 polled 64000000",
          "stm32g030f6 buffered 2000000",
          "stm32c011f4 bitbang 12000000",
          "stm32c011f4 polled 48000000",
          "stm32f030f4 buffered 8000000",
          "stm32f030f4 bitbang 48000000",
          "nrf51822_xxaa polled 16000000",
          "nrf51822_xxaa buffered 16000000",
          "samd10d14a polled 8000000",
          "samd10d14a bitbang 1000000",
          "samd20e14a buffered 4000000",
          "samd21e15a buffered 8000000",
          "samd21e15a polled 1000000",
          "lpc802m001 polled 12000000",
          "lpc802m001 buffered 2000000",
          "lpc812m101 buffered 30000000",
          "lpc812m101 bitbang 4000000",
          "lpc824m201 polled 24000000",
          "lpc845m301 buffered 24000000",
          "lpc845m301 polled 1000000",
          "stm32f103c8 polled 8000000",
          "stm32f103c8 buffered 32000000",
          "stm32f100c4 bitbang 2000000",
          "ch32v103c6t6 polled 16000000",
          "ch32v103c6t6 buffered 8000000",
          "ch32v203c6t6 buffered 48000000",
          "ch32v203c6t6 polled 8000000");

  private static final int READINGS = 40;
  private static final double PERIOD_PART = 0.01;
  private static final double ASLEEP_PART = 0.95;

  @TempDir static Path folder;
  private static BoardRun run;

  @BeforeAll
  static void build() {
    run = new BoardRun(new SimulatedBoard(folder, Simulator.UNICORN));
  }

  @TestFactory
  Stream<DynamicTest> sleepsWhileThereIsNoAlarm() {
    return run.tests(cases("plain", ROOT_CELLAR, ""), DeepSleepSimulationTest::sleepsDeeply);
  }

  /** The last character has left before the clock stops. */
  @TestFactory
  Stream<DynamicTest> reports() {
    return run.tests(cases("report", ROOT_CELLAR, REPORT), DeepSleepSimulationTest::reportsAll);
  }

  /** A watchdog that cannot be stopped is fed in time. */
  @TestFactory
  Stream<DynamicTest> watched() {
    return run.tests(
        cases("watchdog", SLOW_CELLAR, WATCHED), DeepSleepSimulationTest::sleepsDeeply);
  }

  private static List<BoardCase> cases(String what, String text, String extras) {
    List<BoardCase> cases = new ArrayList<>();
    for (String place : PLACES) {
      String[] words = place.split(" ");
      String all = text.replace(" EXTRAS", extras).replace("CLOCK", words[2]);
      cases.add(
          BoardCase.of(
              "root cellar",
              what + " at " + words[2] + " Hz",
              BoardCase.driven(all, words[1]),
              words[0],
              loop -> RandomCourse.of(loop, READINGS)));
    }
    return cases;
  }

  private static void reportsAll(BoardCase each, Seen seen) {
    assertAll(
        () -> sleepsDeeply(each, seen),
        () -> assertEquals(each.trial().expected().alarms().length() / 3, seen.report().size()));
  }

  private static void sleepsDeeply(BoardCase each, Seen seen) {
    String alarms = each.trial().expected().alarms();
    int periodMs = each.trial().loop().periodMs();
    long quiet = alarms.chars().filter(c -> c == '.').count();
    assertTrue(quiet > 0 && quiet < alarms.length(), alarms);
    assertEquals(alarms, seen.alarms());
    assertEquals(List.of(), seen.resets());
    assertEquals(0, seen.idleNaps());
    SeenChecks.waits(each.trial().loop(), seen);
    assertTrue(seen.deepNaps() >= quiet, "deep naps");
    double share = seen.stoppedMs() / (double) (quiet * periodMs);
    assertTrue(share > ASLEEP_PART && share < 1.05, () -> "asleep " + share + " of the time");
    for (int i = 0; i < alarms.length(); i++) {
      double leeway = PERIOD_PART * periodMs;
      // When an alarm begins the timer stands within a tick, and may have ended one unseen.
      leeway += alarms.startsWith(".#", i - 1) ? 2 * each.firmware().pace().exactTickMs() : 0;
      assertEquals(periodMs, seen.periodsMs().get(i), leeway, "period " + i);
    }
  }
}
