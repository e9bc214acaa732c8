package dev.ullage.report;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;
import dev.ullage.replay.LimitLines;
import dev.ullage.replay.Reading;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.stream.LongStream;

/**
 * A frame as a grid of values in the unit, row by row.
 *
 * @param reading number of the reading, from 1
 * @param columns in a row
 */
record Grid(int reading, long timeMs, boolean alarm, int columns, double[] values) {

  static Grid of(Loop loop, int number, Reading reading, boolean alarm) {
    double[] values =
        LongStream.of(reading.raw())
            .mapToDouble(raw -> loop.sensor().scale().toUnit(BigDecimal.valueOf(raw)).doubleValue())
            .toArray();
    int columns = Math.max(1, loop.sensor().frame().columns());
    return new Grid(number, reading.timeMs(), alarm, columns, values);
  }

  int rows() {
    return (values.length + columns - 1) / columns;
  }

  double low() {
    return Arrays.stream(values).min().orElse(0);
  }

  double high() {
    return Arrays.stream(values).max().orElse(0);
  }

  /** Which samples are marked: those that count, or are past the limit themselves. */
  record Mark(Loop loop, LimitLines limits) {

    boolean marks(double value) {
      if (loop.average().frame() == Average.OfFrame.SHARE_ABOVE) {
        return value > level();
      }
      if (limits.trip().size() == 2) {
        return value < limits.trip().get(0) || value > limits.trip().get(1);
      }
      double limit = limits.trip().get(0);
      boolean above = loop.alarm().limit() instanceof Alarm.Limit.Above;
      return above ? value > limit : value < limit;
    }

    /** What a mark means. */
    String meaning(Values sampled) {
      if (loop.average().frame() == Average.OfFrame.SHARE_ABOVE) {
        return "above the level of " + sampled.full(level());
      }
      if (limits.trip().size() == 2) {
        return "outside "
            + sampled.bare(limits.trip().get(0))
            + " to "
            + sampled.full(limits.trip().get(1));
      }
      boolean above = loop.alarm().limit() instanceof Alarm.Limit.Above;
      return (above ? "above " : "below ") + "the limit of " + sampled.full(limits.trip().get(0));
    }

    private double level() {
      return loop.average().level().orElseThrow().doubleValue();
    }
  }
}
