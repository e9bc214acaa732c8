package dev.ullage.report;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import dev.ullage.loop.Average;
import dev.ullage.loop.Average.OverTime;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Sensor;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * One thing of a loop that could have another value, and the loops that come of it. Each keeps the
 * rules of loop files, or says which it breaks.
 *
 * @param key a word for programs
 * @param title what varies, for people
 * @param current the value that the loop has now; empty where each part decides
 */
record WhatIf(String key, String title, Optional<String> current, List<Variant> variants) {
  private static final int[] SAMPLES = {1, 2, 4, 8, 16, 32, 64};
  private static final int[] READINGS = {1, 2, 4, 8, 16, 32, 64, 128, 255};
  private static final int[] MEDIANS = {1, 3, 5, 7, 9, 15, 21, 31};

  WhatIf {
    variants = List.copyOf(variants);
  }

  /**
   * The loop with one value.
   *
   * @param loop empty where such a loop breaks a rule
   * @param why what it breaks; empty where it breaks nothing
   */
  record Variant(String value, Optional<Loop> loop, String why) {
    static Variant of(String value, Loop changed) {
      try {
        return new Variant(value, Optional.of(LoopReader.read("", LoopPrinter.print(changed))), "");
      } catch (InputException broken) {
        return new Variant(value, Optional.empty(), words(broken.findings().get(0)));
      }
    }

    private static String words(Finding finding) {
      return finding.key() + " must be " + finding.expected() + ", but was " + finding.found();
    }
  }

  /** Samples of a frame, readings of the average, and the bus driver. */
  static List<WhatIf> of(Loop loop) {
    return List.of(samples(loop), readings(loop), drivers(loop));
  }

  private static WhatIf samples(Loop loop) {
    int now = loop.sensor().frame().samples();
    return counted("samples", "samples in a frame", now, SAMPLES, n -> withSamples(loop, n));
  }

  private static Loop withSamples(Loop loop, int samples) {
    Sensor sensor = loop.sensor();
    Frame frame = sensor.frame();
    int columns = samples % frame.columns() == 0 ? frame.columns() : 1;
    return loop.with(
        new Sensor(
            sensor.bus(),
            sensor.address(),
            sensor.speedHz(),
            sensor.ask(),
            sensor.restart(),
            sensor.waitMs(),
            sensor.frozenAfter(),
            new Frame(
                frame.skipBytes(),
                samples,
                columns,
                frame.sampleBytes(),
                frame.byteOrder(),
                frame.signed(),
                frame.shiftRight(),
                frame.bits(),
                frame.check()),
            sensor.scale()));
  }

  /** Where there is no average over time yet, of a moving one. */
  private static WhatIf readings(Loop loop) {
    OverTime now = loop.average().overTime();
    OverTime kind = now == OverTime.NONE ? OverTime.MOVING : now;
    String title = "readings in the " + noun(kind);
    return counted(
        "readings",
        title,
        loop.average().readings(),
        kind == OverTime.MEDIAN ? MEDIANS : READINGS,
        n -> withReadings(loop, n == 1 ? OverTime.NONE : kind, n));
  }

  private static String noun(OverTime kind) {
    return kind == OverTime.MEDIAN ? "median" : Style.word(kind) + " average";
  }

  private static Loop withReadings(Loop loop, OverTime overTime, int readings) {
    Average average = loop.average();
    return loop.with(new Average(average.frame(), overTime, readings, average.level()));
  }

  private static WhatIf counted(
      String key, String title, int now, int[] values, IntFunction<Loop> changed) {
    List<Variant> variants =
        IntStream.concat(IntStream.of(values), IntStream.of(now))
            .distinct()
            .sorted()
            .mapToObj(n -> Variant.of(Integer.toString(n), changed.apply(n)))
            .toList();
    return new WhatIf(key, title, Optional.of(Integer.toString(now)), variants);
  }

  private static WhatIf drivers(Loop loop) {
    List<Variant> variants =
        Stream.of(BusDriver.BITBANG, BusDriver.POLLED, BusDriver.BUFFERED)
            .map(each -> Variant.of(Style.word(each), loop.with(each, loop.buffer())))
            .toList();
    Optional<String> now =
        Optional.of(loop.busDriver()).filter(each -> each != BusDriver.AUTO).map(Style::word);
    return new WhatIf("driver", "bus driver", now, variants);
  }
}
