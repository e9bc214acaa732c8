package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.loop.LoopReader;
import java.util.Arrays;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LoopMachineTest {
  private static final String PLAIN = "alarm: {when: above, threshold: 30}";

  private static double[] averages(String average, String values) {
    Replay replay =
        Traces.replay(Traces.loop("average: " + average + "\n" + PLAIN), values.replace(' ', '\n'));
    return IntStream.range(0, replay.steps().size()).mapToDouble(replay::average).toArray();
  }

  /** Source: optrix documentation, "Hysteresis": its ten inputs and both rows of answers. */
  @ParameterizedTest
  @CsvSource({"0, ..##..#...", "1, ..######.."})
  void publishedSequence_switchesWherePublished(String hysteresis, String alarms) {
    String alarm = "alarm: {when: above, threshold: 30, hysteresis: " + hysteresis + "}";
    String values = "29.9\n30\n30.1\n30.2\n29.9\n29.7\n30.1\n29.9\n25\n23";
    assertEquals(alarms, Traces.alarms(Traces.replay(Traces.loop(alarm), values)));
  }

  /** Source: Keller, Statistics for Management and Economics, examples 20.1 and 20.2. */
  @Test
  void movingAverages_areAsPublished() {
    String values = "48 41 37 32 36 31 43 52 60 48 41 30";
    double[] three = averages("{over_time: moving, readings: 3}", values);
    double[] published = {42.00, 36.67, 35.00, 33.00, 36.67, 42.00, 51.67, 53.33, 49.67, 39.67};
    assertArrayEquals(published, Arrays.copyOfRange(three, 2, 12), 0.005);
    double[] five = averages("{over_time: moving, readings: 5}", values);
    assertArrayEquals(
        new double[] {38.8, 35.4, 35.8, 38.8, 44.4, 46.8, 48.8, 46.2},
        Arrays.copyOfRange(five, 4, 12),
        0.05);
  }

  /**
   * Source: Keller, example 20.7, smoothing constant 0.1. The firmware keeps tenths of a tenth, so
   * it may be off by half of one in each step, and they may add up to five of them.
   */
  @Test
  void exponentialAverage_isAsPublished() {
    double[] published = {12, 12.60, 12.94, 14.05, 14.34, 14.51, 15.56, 16.10, 16.79, 16.51};
    assertArrayEquals(
        published,
        averages("{over_time: exponential, readings: 10}", "12 18 16 24 17 16 25 21 23 14"),
        0.05);
  }

  @Test
  void block_isJudgedOnceComplete() {
    double[] averages = averages("{over_time: block, readings: 3}", "1 2 6 7 7 10");
    assertArrayEquals(
        new double[] {Double.NaN, Double.NaN, 3, Double.NaN, Double.NaN, 8}, averages, 1e-9);
  }

  @Test
  void median_isTheMiddleOfTheLatest() {
    assertArrayEquals(
        new double[] {5, 5, 5, 1, 1},
        averages("{over_time: median, readings: 3}", "5 9 1 1 1"),
        1e-9);
  }

  @ParameterizedTest
  @CsvSource({
    "alarm, .....#####..",
    "hold,  ............",
    "quiet, ............",
  })
  void failures_followThePolicy(String policy, String alarms) {
    String alarm =
        "alarm: {when: above, threshold: 30, on_sensor_fault: "
            + policy
            + ", faults_allowed: 2, clear_after: 3}";
    String values = "20\n20\n20\n-\n-\n-\n-\n-\n20\n20\n20\n20";
    assertEquals(alarms, Traces.alarms(Traces.replay(Traces.loop(alarm), values)));
  }

  @Test
  void quietPolicy_silencesAnAlarm() {
    String alarm = "alarm: {when: above, threshold: 30, on_sensor_fault: quiet, faults_allowed: 1}";
    assertEquals("##..#", Traces.alarms(Traces.replay(Traces.loop(alarm), "31\n-\n-\n-\n31")));
  }

  @Test
  void counts_delayBothWays() {
    String alarm = "alarm: {when: above, threshold: 30, trip_after: 2, clear_after: 3}";
    assertEquals(
        "...#####.",
        Traces.alarms(Traces.replay(Traces.loop(alarm), "31\n29\n31\n31\n29\n31\n29\n29\n29")));
  }

  @Test
  void latchedAlarm_staysUntilTheButtonIsPressed() {
    String more =
        """
        alarm: {when: above, threshold: 30, latch: true}
        outputs: {lamp: {blink_ms: 0}}
        extras: {mute_button: true}
        """;
    var loop = Traces.loop(more);
    Trace trace = Trace.read("trace.csv", "31\n20\n20\n20\n20\n31\n20", loop, TraceOptions.NONE);
    assertEquals("#######", Traces.alarms(Replay.of(loop, trace, 0, Set.of())));
    assertEquals("###..##", Traces.alarms(Replay.of(loop, trace, 0, Set.of(3))));
  }

  /** The third reading in a row without a change is one too many, and from then on each. */
  @Test
  void frozenSensor_countsAsFailed() {
    String loop =
        """
        loop: frozen
        sensor:
          bus: i2c
          address: 0x4D
          frozen_after: 3
          frame: {sample_bytes: 2, signed: true}
          scale: {gain: 1, offset: 0, unit: mm}
        alarm: {when: above, threshold: 30, on_sensor_fault: alarm, faults_allowed: 1}
        """;
    Replay replay = Traces.replay(LoopReader.read("loop.yaml", loop), "7\n7\n7\n7\n7\n7\n8\n8");
    assertEquals("....##..", Traces.alarms(replay));
    assertEquals(3, replay.summary().failed());
  }

  @ParameterizedTest
  @CsvSource({"mean, 20", "max, 40", "min, 5", "share_above, 50"})
  void frames_areReduced(String kind, double expected) {
    String level = kind.equals("share_above") ? ", level: 10" : "";
    String loop =
        """
        loop: grid
        sensor:
          bus: i2c
          address: 0x4D
          frame: {samples: 4, sample_bytes: 2, signed: true}
          scale: {gain: 0.5, offset: 0, unit: degC}
        average: {frame: %s%s}
        alarm: {when: above, threshold: 60}
        """
            .formatted(kind, level);
    Replay replay = Traces.replay(LoopReader.read("loop.yaml", loop), "5,10,25,40");
    assertEquals(expected, replay.average(0), 1e-9);
  }
}
