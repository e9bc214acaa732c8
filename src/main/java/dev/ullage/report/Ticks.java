package dev.ullage.report;

import java.util.ArrayList;
import java.util.List;

/** Round numbers to write beside a scale. */
final class Ticks {
  private static final int[] ROUND = {1, 2, 5, 10};
  private static final long[] ROUND_MS = {
    1,
    2,
    5,
    10,
    20,
    50,
    100,
    200,
    500,
    1_000,
    2_000,
    5_000,
    10_000,
    15_000,
    30_000,
    60_000,
    120_000,
    300_000,
    600_000,
    900_000,
    1_800_000,
    3_600_000,
    7_200_000,
    10_800_000,
    21_600_000,
    43_200_000,
    86_400_000
  };
  private static final long DAY_MS = 86_400_000;

  private Ticks() {}

  /** Multiples of a round step from low to high, some {@code about} of them. */
  static List<Double> between(double low, double high, int about) {
    double step = step((high - low) / about);
    List<Double> ticks = new ArrayList<>();
    for (long i = (long) Math.ceil(low / step); i * step <= high; i++) {
      ticks.add(i * step);
    }
    return ticks;
  }

  private static double step(double least) {
    double power = Math.pow(10, Math.floor(Math.log10(least)));
    for (int round : ROUND) {
      if (round * power >= least) {
        return round * power;
      }
    }
    return 10 * power;
  }

  /** Times from 0 to the end in round units of time, some {@code about} of them. */
  static List<Long> times(long end, int about) {
    long step = DAY_MS;
    for (int i = ROUND_MS.length - 1; i >= 0; i--) {
      if (ROUND_MS[i] * about >= end) {
        step = ROUND_MS[i];
      }
    }
    if (step * about < end) {
      step = (long) step((double) end / DAY_MS / about) * DAY_MS;
    }
    List<Long> ticks = new ArrayList<>();
    for (long time = 0; time <= end; time += step) {
      ticks.add(time);
    }
    return ticks;
  }
}
