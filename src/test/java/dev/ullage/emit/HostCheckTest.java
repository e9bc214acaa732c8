package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.loop.Loops;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.ShrinkingMode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The checks in an emitted folder pass for what is right, and notice what is wrong. */
class HostCheckTest {
  private static final String LOOP =
      """
      loop: checked
      sensor:
        bus: i2c
        address: 0x4D
        ask: [0x21, 0x7]
        restart: false
        wait_ms: 30
        frozen_after: 3
        frame:
          samples: 4
          sample_bytes: 2
          signed: true
          shift_right: 3
          check: {crc8: {poly: 0x31, init: 0xFF, over: frame}}
        scale: {gain: -0.25, offset: 10, unit: degC}
      average: {frame: max, over_time: moving, readings: 3}
      alarm:
        when: above
        threshold: 40
        hysteresis: 2
        trip_after: 3
        clear_after: 4
        latch: true
        faults_allowed: 2
        on_sensor_fault: alarm
      outputs: {lamp: {blink_ms: 250}, sounder: {tone_hz: 0, on_ms: 200, off_ms: 300}}
      extras: {report: {baud: 9600, send: average}, mute_button: true}
      """;

  /** One sample, no average: what the published sequence is about. */
  private static final String PLAIN =
      """
      loop: plain
      period_ms: 200
      sensor:
        bus: i2c
        address: 0x4D
        frame: {sample_bytes: 2, signed: true}
        scale: {gain: 0.1, offset: 0, unit: degC}
      alarm: {when: above, threshold: 30, hysteresis: %s, faults_allowed: 1}
      """;

  @TempDir private Path folder;

  @Test
  void everythingAtOnce_isAsExpected() {
    Tool.require("cc", "make");
    Emitted.to(folder, LOOP, "atmega328p").make("check");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "src/config.h  | #define ALARM_TRIP (-  | #define ALARM_TRIP (1-",
        "src/config.h  | SENSOR_ASK_1 0x07u     | SENSOR_ASK_1 0x08u",
        "src/config.h  | CHECK_POLY 0x31u       | CHECK_POLY 0x07u",
        "src/config.h  | SAMPLE_SHIFT 3u        | SAMPLE_SHIFT 2u",
        "src/config.h  | AVERAGE_READINGS 3u    | AVERAGE_READINGS 2u",
        "src/config.h  | ALARM_TRIP_AFTER 3u    | ALARM_TRIP_AFTER 2u",
        "src/config.h  | ALARM_FAULTS_ALLOWED 2 | ALARM_FAULTS_ALLOWED 3",
        "src/config.h  | FROZEN_AFTER 3u        | FROZEN_AFTER 4u",
        "src/config.h  | SENSOR_WAIT_TICKS 2u   | SENSOR_WAIT_TICKS 1u",
        "src/report.c  | length == fixed_u8(REPORT_DECIMALS) | length == fixed_u8(REPORT_DECIMALS + 1)",
        "src/judge.c   | sum < limit            | sum <= limit",
        "src/alarm.c   | if (!on && !alarm_muted) | if (!on && alarm_muted)",
        "src/alarm.c   | alarm_run = 0;         | (void)on;",
        "src/outputs.c | port_lamp_toggle();    | port_lamp(true);",
        "src/outputs.c | sound(!sounding);      | sound(true);",
        "src/ask.c     | bus_stop();            | (void)0;",
        "src/reading.c | raw < value            | raw > value",
      })
  void whatIsWrong_isNoticed(String path, String from, String to) {
    Tool.require("cc", "make");
    Emitted emitted = Emitted.to(folder, LOOP, "atmega328p");
    emitted.change(path, from, to);
    Tool.Run run = emitted.tryMake("check", "HOST_CFLAGS=-std=c99 -O0");
    assertNotEquals(0, run.exit());
    assertTrue(run.output().contains("check failed: "), run.output());
  }

  /** The sequence of check value F-122; source: optrix documentation, "Hysteresis". */
  @ParameterizedTest
  @CsvSource({
    "1, '3,400,1\n9,1600,0'",
    "0, '3,400,1\n5,800,0\n7,1200,1\n8,1400,0'",
  })
  void publishedSequence_switchesWherePublished(String hysteresis, String events)
      throws IOException {
    Tool.require("cc", "make");
    Emitted emitted = Emitted.to(folder, PLAIN.formatted(hysteresis), "attiny85");
    Files.writeString(
        emitted.file("trace.csv"), "value\n29.9\n30\n30.1\n30.2\n29.9\n29.7\n30.1\n29.9\n25\n23\n");
    emitted.make("build/play");
    assertEquals(
        "reading,time_ms,alarm\n" + events + "\n", emitted.make("-s", "play", "TRACE=trace.csv"));
  }

  @Test
  void failedReadingsInATrace_followTheFaultPolicy() throws IOException {
    Tool.require("cc", "make");
    Emitted emitted = Emitted.to(folder, PLAIN.formatted("0"), "attiny85");
    Files.writeString(emitted.file("trace.csv"), "# made up\n20\n-\n20\n-\n-\n20\n");
    emitted.make("build/play");
    assertEquals(
        "reading,time_ms,alarm\n5,800,1\n6,1000,0\n",
        emitted.make("-s", "play", "TRACE=trace.csv"));
  }

  /** Faults that would switch a latched alarm off end the count of good readings as well. */
  @Test
  void aLatchedAlarm_countsAfreshAfterFaults() {
    Tool.require("cc", "make");
    String loop =
        """
        loop: root cellar
        period_ms: 50
        sensor: {address: 0x18, frame: {sample_bytes: 1}}
        alarm:
          {when: below, threshold: 100, trip_after: 2, clear_after: 86, latch: true,
           on_sensor_fault: quiet, faults_allowed: 1}
        outputs: {lamp: {blink_ms: 250}}
        extras: {mute_button: true}
        """;
    Emitted.to(folder, loop, "attiny85").make("check", "SEEDS=1 2 3 4 5 6 7 8");
  }

  @Provide
  Arbitrary<Loop> loops() {
    return Loops.valid();
  }

  @Property(tries = 6, shrinking = ShrinkingMode.OFF)
  void anyLoopDoesWhatItsFileSays(@ForAll("loops") Loop loop) throws IOException {
    Tool.require("cc", "make");
    Path root = Files.createTempDirectory("checked");
    Optional<Emitted> emitted = Emitted.somewhere(root, loop);
    emitted.ifPresent(there -> there.make("check", "SEEDS=1 2 3"));
    Folder.delete(root);
  }
}
