package dev.ullage.replay;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.loop.Loop;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Weather of Seattle (npm vega-datasets 3.2.1, see {@code SOURCES.md} beside the files).
 * Statistics, counts of alarms and averages were computed from the same files with Python and again
 * with R.
 */
class OpenDataTest {
  private static final Path DATA = Path.of("src/test/resources/open-data");

  private static Replay replay(String file, String column, String more) {
    Loop loop = Traces.loop(more);
    TraceOptions options =
        new TraceOptions(
            List.of(column), Optional.of("date"), Optional.empty(), TraceOptions.Missing.SKIP);
    return Replay.of(loop, Trace.read(DATA.resolve(file), loop, options), 0, Set.of());
  }

  /** On at 30.0 and above, so above 29.9; off at the release and below. */
  @ParameterizedTest
  @CsvSource({"0, 31, 63", "2.9, 25, 86", "4.9, 24, 96"})
  void dailyTemperature_alarmsAsCounted(String hysteresis, int alarms, int on) {
    String alarm = "alarm: {when: above, threshold: 29.9, hysteresis: " + hysteresis + "}";
    Replay replay = replay("seattle-weather.csv", "temp_max", alarm);
    assertEquals(alarms, replay.summary().alarms());
    assertEquals(on, replay.steps().stream().filter(LoopMachine.Step::alarm).count());
    // Every day of four years: the time in alarm is that many days.
    assertEquals(on * 86_400_000L, replay.summary().alarmMs());
  }

  @ParameterizedTest
  @CsvSource({"0, 92, 651", "1.9, 92, 804", "4.9, 92, 1187"})
  void hourlyTemperature_alarmsAsCounted(String hysteresis, int alarms, int on) {
    String alarm = "alarm: {when: above, threshold: 19.9, hysteresis: " + hysteresis + "}";
    Replay replay = replay("seattle-weather-hourly-normals.csv", "temperature", alarm);
    assertEquals(alarms, replay.summary().alarms());
    assertEquals(on, replay.steps().stream().filter(LoopMachine.Step::alarm).count());
  }

  @Test
  void spread_isThatOfTheFile() {
    String alarm = "alarm: {when: above, threshold: 30}";
    Spread daily =
        replay("seattle-weather.csv", "temp_max", alarm).summary().average().orElseThrow();
    assertEquals(1461, daily.count());
    assertEquals(-1.6, daily.low(), 1e-9);
    assertEquals(35.6, daily.high(), 1e-9);
    assertEquals(16.439083, daily.mean(), 1e-6);
    assertEquals(7.349758, daily.sd(), 1e-6);
    Spread hourly =
        replay("seattle-weather-hourly-normals.csv", "temperature", alarm)
            .summary()
            .average()
            .orElseThrow();
    assertEquals(8759, hourly.count());
    assertEquals(11.127617, hourly.mean(), 1e-6);
    assertEquals(5.356544, hourly.sd(), 1e-6);
  }

  @Test
  void movingAverage_isThatOfTheFile() {
    Replay replay =
        replay(
            "seattle-weather-hourly-normals.csv",
            "temperature",
            "average: {over_time: moving, readings: 8}\nalarm: {when: above, threshold: 30}");
    double[] full = IntStream.range(7, 8759).mapToDouble(replay::average).toArray();
    assertEquals(3.7875, full[0], 1e-9);
    assertEquals(4.8625, full[full.length - 1], 1e-9);
    assertEquals(23.3, Spread.of(full).high(), 1e-9);
    assertEquals(3.175, Spread.of(full).low(), 1e-9);
  }
}
