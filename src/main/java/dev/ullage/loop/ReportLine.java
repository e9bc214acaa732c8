package dev.ullage.loop;

import java.math.BigDecimal;

/**
 * How long the longest line of the serial report can be: each value with its sign, its point and as
 * many decimals as the scale has (three at most), a separator after each, and the end of the line.
 */
final class ReportLine {
  private static final int MAX_DECIMALS = 3;
  private static final int BITS_PER_CHARACTER = 10; // start, eight of data, stop
  private static final long MICROSECONDS = 1_000_000;

  private ReportLine() {}

  static int characters(Sensor sensor, Average average, Extras.Report.Send send) {
    if (send == Extras.Report.Send.FRAME) {
      return sensor.frame().samples() * (width(ValueRange.ofSample(sensor), sensor) + 1) + 1;
    }
    return width(ValueRange.ofJudged(sensor, average), sensor) + 2;
  }

  private static int width(ValueRange range, Sensor sensor) {
    Scale scale = sensor.scale();
    int decimals = Math.min(MAX_DECIMALS, Math.max(scale.gain().scale(), scale.offset().scale()));
    int integer = Math.max(integerWidth(range.low()), integerWidth(range.high()));
    return decimals > 0 ? integer + 1 + decimals : integer;
  }

  private static int integerWidth(BigDecimal value) {
    int sign = value.signum() < 0 ? 1 : 0;
    return sign + value.toBigInteger().abs().toString().length();
  }

  /** Rounded up. */
  static long microseconds(Loop loop) {
    if (loop.extras().report().isEmpty()) {
      return 0;
    }
    Extras.Report report = loop.extras().report().get();
    long bits =
        (long) BITS_PER_CHARACTER * characters(loop.sensor(), loop.average(), report.send());
    return (bits * MICROSECONDS + report.baud() - 1) / report.baud();
  }
}
