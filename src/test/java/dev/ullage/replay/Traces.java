package dev.ullage.replay;

import dev.ullage.loop.Average;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.LongStream;

/** Loops and traces for tests. */
public final class Traces {
  private Traces() {}

  /**
   * One reading a second of one sample, in tenths of a degree; {@code more} is more of the file.
   */
  static Loop loop(String more) {
    return LoopReader.read(
        "loop.yaml",
        """
        loop: tried
        sensor:
          bus: i2c
          address: 0x4D
          frame: {sample_bytes: 2, signed: true}
          scale: {gain: 0.1, offset: 0, unit: degC}
        """
            + more);
  }

  static Replay replay(Loop loop, String text) {
    Trace trace = Trace.read("trace.csv", text, loop, TraceOptions.NONE);
    return Replay.of(loop, trace, 0, java.util.Set.of());
  }

  /** Which readings leave the alarm on: {@code #} for on, {@code .} for off. */
  static String alarms(Replay replay) {
    return replay.steps().stream().map(s -> s.alarm() ? "#" : ".").collect(Collectors.joining());
  }

  /**
   * Readings that keep a loop busy: around its limits, anywhere, the same for a while, or failing.
   *
   * @param knob code that its knob stands at
   */
  public static List<Reading> random(Loop loop, int knob, Random random, int count) {
    List<Reading> readings = new ArrayList<>();
    Mood mood = Mood.NEAR;
    long level = 0;
    int left = 0;
    long[] raw = frame(loop, level, 1);
    while (readings.size() < count) {
      if (left-- == 0) {
        mood = Mood.values()[random.nextInt(Mood.values().length)];
        left = random.nextInt(Math.max(6, count / 40));
        level =
            limit(loop, knob, random) + mood.side * (long) ((1 + random.nextInt(3)) * step(loop));
      }
      if (mood == Mood.ANYWHERE) {
        Frame frame = loop.sensor().frame();
        level = (long) (frame.rawMin() + random.nextDouble() * frame.rawMax());
      }
      raw = mood == Mood.STILL ? raw : frame(loop, level, random.nextInt(1 + step(loop)));
      int line = readings.size() + 1;
      long time = (long) (line - 1) * loop.periodMs();
      boolean fails = mood == Mood.FAILING || random.nextInt(100) == 0;
      readings.add(fails ? Reading.failed(line, time) : new Reading(line, time, raw));
    }
    return readings;
  }

  /** What the readings are like for a while. */
  private enum Mood {
    NEAR(0),
    LOW(-1),
    HIGH(1),
    ANYWHERE(0),
    STILL(0),
    FAILING(0);

    private final int side;

    Mood(int side) {
      this.side = side;
    }
  }

  /** One of the limits, or the level of a share, in counts of a sample. */
  private static long limit(Loop loop, int knob, Random random) {
    List<Double> lines = LimitLines.of(loop.alarm(), knob).all().toList();
    double unit =
        loop.average().frame() == Average.OfFrame.SHARE_ABOVE
            ? loop.average().level().orElseThrow().doubleValue()
            : lines.get(random.nextInt(lines.size()));
    double offset = loop.sensor().scale().offset().doubleValue();
    return Math.round((unit - offset) / loop.sensor().scale().gain().doubleValue());
  }

  /** Counts of a sample that are enough to go from one limit to the next. */
  private static int step(Loop loop) {
    double gain = loop.sensor().scale().gain().abs().doubleValue();
    return 2 + (int) Math.min(1_000_000, loop.alarm().hysteresis().doubleValue() / gain);
  }

  /** Samples around a level, as far as the sensor reaches. */
  private static long[] frame(Loop loop, long level, int spread) {
    Frame frame = loop.sensor().frame();
    return LongStream.range(0, frame.samples())
        .map(i -> level + (i * 7 + level) % (2 * spread + 1) - spread)
        .map(counts -> Math.max(frame.rawMin(), Math.min(frame.rawMax(), counts)))
        .toArray();
  }

  /** As a file of values in the unit, exactly. */
  public static String csv(Loop loop, List<Reading> readings) {
    return readings.stream()
        .map(
            reading ->
                reading.failed()
                    ? "-"
                    : LongStream.of(reading.raw())
                        .mapToObj(raw -> loop.sensor().scale().toUnit(BigDecimal.valueOf(raw)))
                        .map(BigDecimal::toPlainString)
                        .collect(Collectors.joining(",")))
        .collect(Collectors.joining("\n", "", "\n"));
  }
}
