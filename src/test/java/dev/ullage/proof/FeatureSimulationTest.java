package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the samples do not have: other averages and limits, sleep, and outputs, each on some part.
 */
class FeatureSimulationTest {
  private static final String GREENHOUSE =
      """
      loop: greenhouse
      period_ms: 1000
      sensor:
        address: 0x40
        ask: [0xE3]
        frame: {sample_bytes: 2, signed: false, shift_right: 2}
        scale: {gain: 0.01, offset: -40, unit: degC}
      average: {over_time: moving, readings: 5}
      alarm: {when: outside, low: 8, high: 32, hysteresis: 1.5, trip_after: 2}
      outputs: {lamp: {blink_ms: 200, active: low}, relay: {active: low}}
      extras: {report: {baud: 4800, send: average}, sleep: idle, watchdog_ms: 2000}
      """;

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
      extras: {sleep: deep}
      """;

  private static final String KILN =
      """
      loop: kiln
      period_ms: 500
      sensor:
        address: 0x60
        ask: [0x10, 0x02]
        restart: false
        frame:
          skip_bytes: 1
          samples: 2
          sample_bytes: 3
          byte_order: little
          signed: true
          bits: 18
          check: {crc8: {poly: 0x1D, init: 0xFF, over: frame}}
        scale: {gain: -0.25, offset: 900, unit: degC}
      average: {frame: min, over_time: exponential, readings: 6}
      alarm: {when: above, threshold: 1060, hysteresis: 12, clear_after: 3}
      outputs: {sounder: {tone_hz: 0, on_ms: 120, off_ms: 180}, relay: {active: high}}
      extras: {report: {baud: 9600, send: average}}
      """;

  private static final String FISH_POND =
      """
      loop: fish pond
      period_ms: 700
      sensor:
        address: 0x36
        ask: [0x0F]
        frame: {samples: 5, sample_bytes: 2, byte_order: little, signed: false}
        scale: {gain: 0.5, unit: mm}
      average: {frame: max, over_time: median, readings: 3}
      alarm: {when: below, threshold: 250, hysteresis: 20, trip_after: 2, latch: true}
      outputs: {lamp: {}, sounder: {tone_hz: 2000, on_ms: 100, off_ms: 250}}
      extras: {mute_button: true, report: {baud: 2400, send: frame}}
      """;

  private static final String SEED_TRAY =
      """
      loop: seed tray
      period_ms: 1000
      sensor:
        address: 0x68
        ask: [0x80]
        frame: {samples: 16, columns: 4, sample_bytes: 2, byte_order: little, signed: true, bits: 12}
        scale: {gain: 0.25, unit: degC}
      average: {frame: share_above, level: 22, over_time: none}
      alarm: {when: below, threshold: 50, hysteresis: 12.5}
      outputs: {lamp: {blink_ms: 500}}
      """;

  /** Asking takes longer than the wait and its ticks. */
  private static final String GLUE_PRESS =
      """
      loop: glue press
      period_ms: 400
      sensor:
        address: 0x5C
        speed_hz: 10000
        ask: [0x03, 0x00, 0x04, 0x10, 0x20, 0x30, 0x40, 0x50]
        restart: false
        wait_ms: 5
        frame: {samples: 2, sample_bytes: 2, signed: false}
        scale: {gain: 0.1, unit: degC}
      average: {frame: max, over_time: none}
      alarm: {when: above, threshold: 60, hysteresis: 2}
      outputs: {lamp: {blink_ms: 200}}
      """;

  private static final int READINGS = 70;
  // The watchdog's oscillator wakes the part; naps of its lengths, and the work between them,
  // make up the period.
  private static final double DEEP_PART = 0.04;

  @TempDir static Path folder;
  private static BoardRun run;

  @BeforeAll
  static void build() {
    run = new BoardRun(new SimulatedBoard(folder));
  }

  @AfterAll
  static void sumUp() {
    run.sumUp("features");
  }

  @TestFactory
  Stream<DynamicTest> loops() {
    List<BoardCase> cases = new ArrayList<>();
    add(cases, "greenhouse", GREENHOUSE, "attiny84 bitbang", "attiny85 bitbang");
    add(cases, "greenhouse", GREENHOUSE, "atmega328p polled", "atmega2560 buffered");
    add(cases, "kiln", KILN, "attiny84 bitbang", "atmega8 polled", "atmega328p buffered");
    add(cases, "fish pond", FISH_POND, "attiny2313a bitbang", "at90usb162 bitbang");
    add(cases, "fish pond", FISH_POND, "atmega8 buffered", "atmega2560 polled");
    add(cases, "seed tray", SEED_TRAY, "attiny13a bitbang", "atmega328p polled");
    add(cases, "glue press", GLUE_PRESS, "attiny85 bitbang", "atmega328p polled");
    return run.tests(cases, FeatureSimulationTest::doesItsJobAwakeOrIdle);
  }

  private static void doesItsJobAwakeOrIdle(BoardCase each, Seen seen) {
    SeenChecks.doesItsJob(each, seen);
    boolean sleeps = each.sample().equals("greenhouse");
    assertEquals(sleeps, seen.idleNaps() > 0, "sleeps while it waits");
    assertEquals(0, seen.deepNaps());
  }

  /** While there is no alarm the part sleeps deeply, and keeps time by the watchdog only. */
  @TestFactory
  Stream<DynamicTest> deepSleep() {
    List<BoardCase> cases = new ArrayList<>();
    add(cases, "root cellar", ROOT_CELLAR, "attiny13a bitbang", "attiny85 bitbang");
    add(cases, "root cellar", ROOT_CELLAR, "attiny84 bitbang", "attiny2313a bitbang");
    add(cases, "root cellar", ROOT_CELLAR, "atmega328p polled", "atmega2560 buffered");
    String reporting = ROOT_CELLAR.replace("deep}", "deep, report: {baud: 4800, send: average}}");
    add(cases, "root cellar", reporting, "atmega328p buffered", "attiny85 bitbang");
    String waiting =
        ROOT_CELLAR.replace("frame:", "ask: [0x10]\n  restart: false\n  wait_ms: 40\n  frame:");
    add(
        cases,
        "root cellar that waits",
        waiting,
        "attiny85 bitbang",
        "atmega328p polled",
        "atmega2560 buffered");
    String watched = ROOT_CELLAR.replace("deep}", "deep, watchdog_ms: 4000}");
    add(cases, "root cellar", watched, "attiny85 bitbang", "atmega328p polled");
    return run.tests(cases, FeatureSimulationTest::sleepsDeeply);
  }

  private static void sleepsDeeply(BoardCase each, Seen seen) {
    String alarms = each.trial().expected().alarms();
    assertEquals(alarms, seen.alarms());
    assertEquals(List.of(), seen.resets());
    SeenChecks.waits(each.trial().loop(), seen);
    assertTrue(seen.deepNaps() >= alarms.chars().filter(c -> c == '.').count(), "deep naps");
    assertEquals(0, seen.idleNaps());
    int wanted = each.trial().loop().periodMs();
    for (int i = 0; i < alarms.length(); i++) {
      double leeway = (alarms.charAt(i) == '.' ? DEEP_PART : 0.01) * wanted;
      // When an alarm begins the timer stands within a tick, and may have ended one unseen.
      boolean begins = alarms.startsWith(".#", i - 1);
      leeway += begins ? 2 * each.firmware().pace().exactTickMs() : 0;
      assertEquals(wanted, seen.periodsMs().get(i), leeway, "period " + i);
    }
  }

  /** The button ends the noise, and a latched alarm once there is no reason left. */
  @TestFactory
  Stream<DynamicTest> latchAndMute() {
    List<BoardCase> cases = new ArrayList<>();
    for (String partAndDriver : List.of("attiny2313a bitbang", "atmega328p buffered")) {
      String[] words = partAndDriver.split(" ");
      String text = BoardCase.driven(FISH_POND, words[1]);
      cases.add(
          BoardCase.of(
              "fish pond",
              "latch and mute",
              text,
              words[0],
              loop ->
                  new Trial(loop)
                      .units(2, 300)
                      .units(4, 200)
                      .press()
                      .units(3, 200)
                      .units(6, 300)
                      .units(4, 200)
                      .units(6, 300)));
    }
    return run.tests(cases, FeatureSimulationTest::isQuietAfterThePress);
  }

  private static void isQuietAfterThePress(BoardCase each, Seen seen) {
    // A median follows one reading late. The second below the limit trips; the button lets it
    // clear, and without the button it stays.
    assertEquals("....######.......########", seen.alarms());
    assertEquals(each.trial().expected().alarms(), seen.alarms());
    long pressed = seen.stops().get(5) + 400_000;
    long again = seen.readings().get(17);
    assertEquals(
        List.of(),
        seen.tones().stream().filter(t -> t.begin() > pressed && t.begin() < again).toList());
    assertTrue(seen.tones().stream().anyMatch(t -> t.end() < pressed), "sound before the press");
    assertTrue(seen.tones().stream().anyMatch(t -> t.begin() > again), "sound in the next alarm");
  }

  private static void add(List<BoardCase> cases, String name, String text, String... places) {
    for (String place : places) {
      String[] words = place.split(" ");
      cases.add(
          BoardCase.of(
              name,
              "a random course",
              BoardCase.driven(text, words[1]),
              words[0],
              loop -> RandomCourse.of(loop, READINGS)));
    }
  }
}
