package dev.ullage.loop;

import java.math.BigDecimal;

/** The values, in the unit, that can ever be read; both ends included. */
public record ValueRange(BigDecimal low, BigDecimal high) {
  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

  /** Of one sample, from the bits that the frame leaves it and the scale. */
  public static ValueRange ofSample(Sensor sensor) {
    return of(sensor.scale(), sensor.frame().rawMin(), sensor.frame().rawMax());
  }

  /** What it would be if no bit of a sample were a sign. */
  static ValueRange ofUnsignedSample(Sensor sensor) {
    return of(sensor.scale(), 0, (1L << sensor.frame().rawBits()) - 1);
  }

  private static ValueRange of(Scale scale, long rawMin, long rawMax) {
    BigDecimal first = scale.toUnit(BigDecimal.valueOf(rawMin));
    BigDecimal last = scale.toUnit(BigDecimal.valueOf(rawMax));
    return new ValueRange(Numbers.plain(first.min(last)), Numbers.plain(first.max(last)));
  }

  /** Of what the alarm judges: a sample's, or 0 to 100 per cent for a share. */
  public static ValueRange ofJudged(Sensor sensor, Average average) {
    return average.frame() == Average.OfFrame.SHARE_ABOVE
        ? new ValueRange(BigDecimal.ZERO, HUNDRED)
        : ofSample(sensor);
  }

  public boolean holds(BigDecimal value) {
    return low.compareTo(value) <= 0 && value.compareTo(high) <= 0;
  }

  public BigDecimal width() {
    return high.subtract(low);
  }
}
