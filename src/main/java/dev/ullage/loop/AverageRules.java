package dev.ullage.loop;

import java.math.BigDecimal;

/** Rules for averages. */
final class AverageRules {
  private static final int FEWEST_FOR_MEDIAN = 3;
  private static final int MOST_FOR_MEDIAN = 31;

  private final Judge judge;
  private final Sensor sensor;
  private final Average average;

  AverageRules(Judge judge) {
    this.judge = judge;
    this.sensor = judge.loop.sensor();
    this.average = judge.loop.average();
  }

  void readingsSuitOverTime() {
    if (!judge.trusts("average.over_time", "average.readings")) {
      return;
    }
    int readings = average.readings();
    switch (average.overTime()) {
      case NONE -> {
        if (readings != 1) {
          reportReadings(
              "1 without an average over time", "choose over_time: moving, or leave it out");
        }
      }
      case MEDIAN -> {
        if (readings % 2 == 0 || readings < FEWEST_FOR_MEDIAN || readings > MOST_FOR_MEDIAN) {
          reportReadings("an odd number from 3 to 31 for a median", medianCure(readings));
        }
      }
      case BLOCK, MOVING, EXPONENTIAL -> {
        if (readings < 2) {
          reportReadings("a whole number from 2 to 255", "choose over_time: none");
        }
      }
    }
  }

  private static String medianCure(int readings) {
    int odd = readings % 2 == 0 ? readings + 1 : readings;
    return "choose " + Math.max(FEWEST_FOR_MEDIAN, Math.min(MOST_FOR_MEDIAN, odd));
  }

  private void reportReadings(String expected, String cure) {
    judge.report("average.readings", Integer.toString(average.readings()), expected, cure);
  }

  void levelGoesWithShare() {
    if (!judge.trusts("average.frame", "average.level")) {
      return;
    }
    boolean share = average.frame() == Average.OfFrame.SHARE_ABOVE;
    if (share && average.level().isEmpty()) {
      judge.report("average.level", "missing", "the value that a sample counts above");
    } else if (!share && average.level().isPresent()) {
      judge.report(
          "average.level",
          average.level().get().toPlainString(),
          "left out unless `average.frame` is share_above",
          "choose frame: share_above, or leave `level` out");
    }
  }

  void levelCanBeRead() {
    if (average.level().isEmpty()
        || !judge.trusts("average.level", "sensor.frame", "sensor.scale")) {
      return;
    }
    BigDecimal level = average.level().get();
    ValueRange range = ValueRange.ofSample(sensor);
    if (!range.holds(level) || level.equals(range.high())) {
      judge.report(
          "average.level",
          judge.sampled(level),
          "at least "
              + judge.sampled(range.low())
              + " and less than "
              + judge.sampled(range.high())
              + ", which is what the sensor can read");
    }
  }

  void sumFits() {
    if (!judge.trusts("average", "sensor.frame")) {
      return;
    }
    SumWidth sum = SumWidth.of(sensor.frame(), average);
    if (sum.bits() > SumWidth.MAX_BITS) {
      judge.report(
          "average",
          sum.bits()
              + " bits wide: "
              + sum.values()
              + " values of "
              + sensor.frame().rawBits()
              + " bits",
          "a sum of at most " + SumWidth.MAX_BITS + " bits",
          "average no more than "
              + sum.mostValues()
              + (sum.mostValues() == 1 ? " value" : " values")
              + ", or drop "
              + (sum.bits() - SumWidth.MAX_BITS)
              + " more bits with `sensor.frame.shift_right`");
    }
  }
}
