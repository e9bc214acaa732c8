package dev.ullage.replay;

import dev.ullage.loop.Average;
import java.util.Arrays;
import java.util.OptionalLong;

/** Successive values to what is judged, with the same whole-number steps as the emitted C. */
interface OverTime {

  /** Takes one value in; the sum to judge, unless a block is not complete yet. */
  OptionalLong add(long value);

  static OverTime of(Average average) {
    return switch (average.overTime()) {
      case NONE -> OptionalLong::of;
      case BLOCK -> new Block(average.readings());
      case MOVING -> new Moving(average.readings());
      case EXPONENTIAL -> new Exponential(average.readings());
      case MEDIAN -> new Median(average.readings());
    };
  }

  /** The sum of each block. */
  final class Block implements OverTime {
    private final int readings;
    private int left;
    private long sum;

    Block(int readings) {
      this.readings = readings;
    }

    @Override
    public OptionalLong add(long value) {
      if (left == 0) {
        left = readings;
        sum = 0;
      }
      sum += value;
      return --left == 0 ? OptionalLong.of(sum) : OptionalLong.empty();
    }
  }

  /** The sum of the latest values; the first stands for all that were before it. */
  final class Moving implements OverTime {
    private final long[] window;
    private int at;
    private long sum;
    private boolean primed;

    Moving(int readings) {
      window = new long[readings];
    }

    @Override
    public OptionalLong add(long value) {
      if (!primed) {
        Arrays.fill(window, value);
        sum = value * window.length;
        primed = true;
      } else {
        sum += value - window[at];
        window[at] = value;
        at = (at + 1) % window.length;
      }
      return OptionalLong.of(sum);
    }
  }

  /** A sum that loses its mean, rounded, before it gains a value. */
  final class Exponential implements OverTime {
    private final int readings;
    private final boolean shifts;
    private long level;
    private boolean primed;

    Exponential(int readings) {
      this.readings = readings;
      this.shifts = Integer.bitCount(readings) == 1;
    }

    @Override
    public OptionalLong add(long value) {
      level = primed ? level - mean() + value : value * readings;
      primed = true;
      return OptionalLong.of(level);
    }

    /** Halves go up where the firmware shifts, and away from zero where it divides. */
    private long mean() {
      int half = readings / 2;
      return shifts
          ? Math.floorDiv(level + half, readings)
          : (level < 0 ? level - half : level + half) / readings;
    }
  }

  /** The middle one of the latest values, an odd number of them. */
  final class Median implements OverTime {
    private final long[] window;
    private int at;
    private boolean primed;

    Median(int readings) {
      window = new long[readings];
    }

    @Override
    public OptionalLong add(long value) {
      if (!primed) {
        Arrays.fill(window, value);
        primed = true;
      }
      window[at] = value;
      at = (at + 1) % window.length;
      long[] sorted = window.clone();
      Arrays.sort(sorted);
      return OptionalLong.of(sorted[sorted.length / 2]);
    }
  }
}
