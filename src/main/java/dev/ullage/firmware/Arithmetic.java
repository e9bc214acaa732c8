package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import java.math.BigInteger;
import java.util.Optional;

/**
 * The numbers of a loop, folded into raw counts once and for all: the firmware compares running
 * sums and never converts or divides.
 *
 * <p>A sample is {@code raw}; a frame is reduced to a {@code value}; successive values are reduced
 * to a {@code sum}, which is what is judged. {@code unit = sum * gain + offset}, exactly.
 *
 * @param raw type of a sample
 * @param value type of a reduced frame
 * @param sum type of what is judged; holds the limits too
 * @param limits what the sum is compared with
 * @param level for a share of samples: the raw limit, and whether samples count above or below it
 */
public record Arithmetic(
    Whole raw, Whole value, Whole sum, Limits limits, Optional<Level> level, Fold fold) {

  /** From the sum to the unit. */
  public record Fold(Ratio gain, Ratio offset, BigInteger lowest, BigInteger highest) {
    Ratio toSum(Ratio unit) {
      return unit.minus(offset).over(gain);
    }

    /** What a sum stands for in the unit, to the precision of a double. */
    public double toUnit(long sum) {
      return Ratio.of(sum).times(gain).plus(offset).approximately();
    }
  }

  /** A sample counts when it is {@code above} (or else below) {@code limit}. */
  public record Level(boolean above, long limit) {}

  /** What the sum is compared with, in its own counts. */
  public sealed interface Limits {
    /** Trips above {@code trip}; stays on above {@code clear}. */
    record Above(long trip, long clear) implements Limits {}

    /** Trips below {@code trip}; stays on below {@code clear}. */
    record Below(long trip, long clear) implements Limits {}

    /** Trips below low or above high; stays on below or above the clearing pair. */
    record Outside(long tripLow, long tripHigh, long clearLow, long clearHigh) implements Limits {}

    /**
     * A knob's limit: {@code low ± scaled(code, multiplier)}, moved back by the hysteresis while
     * the alarm is on.
     *
     * @param above trips above the limit, else below
     * @param rising the limit grows with the knob's voltage
     * @param multiplier for {@link Knob#scaled}
     */
    record Turned(boolean above, long low, boolean rising, long multiplier, long hysteresis)
        implements Limits {}
  }

  /**
   * Folds a loop's numbers.
   *
   * @throws Whole.TooWide if 32 bits do not hold them
   */
  public static Arithmetic of(Loop loop) {
    Frame frame = loop.sensor().frame();
    Whole raw = Whole.holding(frame.rawMin(), frame.rawMax(), 8);
    Fold ofFrame = foldFrame(loop);
    Whole value = Whole.holding(ofFrame.lowest(), ofFrame.highest(), 16);
    Fold ofSum = foldTime(loop.average(), ofFrame);
    Limits limits = limits(loop.alarm(), ofSum);
    return new Arithmetic(raw, value, sumType(ofSum, limits), limits, level(loop), ofSum);
  }

  private static Fold foldFrame(Loop loop) {
    Frame frame = loop.sensor().frame();
    Ratio gain = Ratio.of(loop.sensor().scale().gain());
    Ratio offset = Ratio.of(loop.sensor().scale().offset());
    BigInteger low = BigInteger.valueOf(frame.rawMin());
    BigInteger high = BigInteger.valueOf(frame.rawMax());
    BigInteger samples = BigInteger.valueOf(frame.samples());
    return switch (loop.average().frame()) {
      case MEAN ->
          new Fold(
              gain.over(Ratio.of(frame.samples())),
              offset,
              low.multiply(samples),
              high.multiply(samples));
      case SHARE_ABOVE ->
          new Fold(
              Ratio.of(100).over(Ratio.of(frame.samples())), Ratio.of(0), BigInteger.ZERO, samples);
      case MAX, MIN, MEDIAN -> new Fold(gain, offset, low, high);
    };
  }

  private static Fold foldTime(Average average, Fold frame) {
    return switch (average.overTime()) {
      case NONE, MEDIAN -> frame;
      case BLOCK, MOVING, EXPONENTIAL -> {
        BigInteger readings = BigInteger.valueOf(average.readings());
        // The exponential average adds half a reading before it divides.
        BigInteger half =
            average.overTime() == Average.OverTime.EXPONENTIAL
                ? readings.shiftRight(1)
                : BigInteger.ZERO;
        BigInteger low = frame.lowest().multiply(readings);
        yield new Fold(
            frame.gain().over(Ratio.of(average.readings())),
            frame.offset(),
            low.signum() < 0 ? low.subtract(half) : low,
            frame.highest().multiply(readings).add(half));
      }
    };
  }

  private static Limits limits(Alarm alarm, Fold fold) {
    Ratio hysteresis = Ratio.of(alarm.hysteresis());
    if (alarm.limit() instanceof Alarm.Limit.Above above) {
      return oneSided(above.setting(), hysteresis, fold, true);
    }
    if (alarm.limit() instanceof Alarm.Limit.Below below) {
      return oneSided(below.setting(), hysteresis, fold, false);
    }
    Alarm.Limit.Outside outside = (Alarm.Limit.Outside) alarm.limit();
    Ratio low = Ratio.of(outside.low());
    Ratio high = Ratio.of(outside.high());
    boolean upright = fold.gain().sign() > 0;
    Ratio lower = upright ? low : high;
    Ratio upper = upright ? high : low;
    Ratio inward = upright ? hysteresis : hysteresis.times(Ratio.of(-1));
    return new Limits.Outside(
        below(lower, fold),
        above(upper, fold),
        below(lower.plus(inward), fold),
        above(upper.minus(inward), fold));
  }

  private static Limits oneSided(
      Alarm.Setting setting, Ratio hysteresis, Fold fold, boolean tripsAbove) {
    // With a falling scale, a value above the limit is a count below it.
    boolean above = tripsAbove == fold.gain().sign() > 0;
    if (setting instanceof Alarm.Setting.Knob knob) {
      long from = limit(Ratio.of(knob.from()), fold, above);
      long to = limit(Ratio.of(knob.to()), fold, above);
      long steps = hysteresis.over(fold.gain().magnitude()).round().longValueExact();
      return new Limits.Turned(
          above, from, to >= from, Knob.multiplier(Math.abs(to - from)), steps);
    }
    Ratio threshold = Ratio.of(((Alarm.Setting.Fixed) setting).threshold());
    Ratio cleared = tripsAbove ? threshold.minus(hysteresis) : threshold.plus(hysteresis);
    long trip = limit(threshold, fold, above);
    long clear = limit(cleared, fold, above);
    return above ? new Limits.Above(trip, clear) : new Limits.Below(trip, clear);
  }

  private static long limit(Ratio unit, Fold fold, boolean above) {
    return above ? above(unit, fold) : below(unit, fold);
  }

  /** {@code sum > above(unit)} exactly when the sum stands for more than the unit value. */
  private static long above(Ratio unit, Fold fold) {
    return fold.toSum(unit).floor().longValueExact();
  }

  /** {@code sum < below(unit)} exactly when the sum stands for less than the unit value. */
  private static long below(Ratio unit, Fold fold) {
    return fold.toSum(unit).ceil().longValueExact();
  }

  private static Whole sumType(Fold fold, Limits limits) {
    BigInteger low = fold.lowest();
    BigInteger high = fold.highest();
    for (long limit : reach(limits)) {
      low = low.min(BigInteger.valueOf(limit));
      high = high.max(BigInteger.valueOf(limit));
    }
    return Whole.holding(low, high, 16);
  }

  private static long[] reach(Limits limits) {
    if (limits instanceof Limits.Above above) {
      return new long[] {above.trip(), above.clear()};
    }
    if (limits instanceof Limits.Below below) {
      return new long[] {below.trip(), below.clear()};
    }
    if (limits instanceof Limits.Outside outside) {
      return new long[] {
        outside.tripLow(), outside.tripHigh(), outside.clearLow(), outside.clearHigh()
      };
    }
    Limits.Turned turned = (Limits.Turned) limits;
    long span = Knob.scaled(Knob.TOP, turned.multiplier());
    long far = turned.rising() ? turned.low() + span : turned.low() - span;
    long back = turned.above() ? -turned.hysteresis() : turned.hysteresis();
    return new long[] {turned.low(), far, turned.low() + back, far + back};
  }

  private static Optional<Level> level(Loop loop) {
    if (loop.average().frame() != Average.OfFrame.SHARE_ABOVE) {
      return Optional.empty();
    }
    Ratio gain = Ratio.of(loop.sensor().scale().gain());
    Ratio raw =
        Ratio.of(loop.average().level().orElseThrow())
            .minus(Ratio.of(loop.sensor().scale().offset()))
            .over(gain);
    return Optional.of(
        gain.sign() > 0
            ? new Level(true, raw.floor().longValueExact())
            : new Level(false, raw.ceil().longValueExact()));
  }
}
