package dev.ullage.replay;

import dev.ullage.firmware.Arithmetic;
import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;

/** One frame to one value, in counts. */
final class FrameReduction {
  private final Average.OfFrame kind;
  private final boolean rises;
  private final Arithmetic arithmetic;

  FrameReduction(Loop loop, Arithmetic arithmetic) {
    this.kind = loop.average().frame();
    this.rises = loop.sensor().scale().gain().signum() > 0;
    this.arithmetic = arithmetic;
  }

  long value(long[] raw) {
    return switch (kind) {
      case MEAN -> sum(raw);
      // The largest value is the smallest count where the scale falls.
      case MAX -> rises ? largest(raw) : smallest(raw);
      case MIN -> rises ? smallest(raw) : largest(raw);
      case SHARE_ABOVE -> counted(raw, arithmetic.level().orElseThrow());
      case MEDIAN -> throw new IllegalArgumentException("No firmware has a median of a frame.");
    };
  }

  private static long sum(long[] raw) {
    long sum = 0;
    for (long sample : raw) {
      sum += sample;
    }
    return sum;
  }

  private static long largest(long[] raw) {
    long largest = raw[0];
    for (long sample : raw) {
      largest = Math.max(largest, sample);
    }
    return largest;
  }

  private static long smallest(long[] raw) {
    long smallest = raw[0];
    for (long sample : raw) {
      smallest = Math.min(smallest, sample);
    }
    return smallest;
  }

  private static long counted(long[] raw, Arithmetic.Level level) {
    long count = 0;
    for (long sample : raw) {
      count += (level.above() ? sample > level.limit() : sample < level.limit()) ? 1 : 0;
    }
    return count;
  }
}
