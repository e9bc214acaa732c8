package dev.ullage.replay;

import dev.ullage.firmware.Knob;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Alarm.Limit;
import java.util.List;
import java.util.stream.Stream;

/**
 * What the average is compared with, in the unit: one limit, or a low and a high one.
 *
 * @param trip past these the alarm goes on
 * @param clear back at these it goes off; the same where there is no hysteresis
 */
public record LimitLines(List<Double> trip, List<Double> clear) {

  /**
   * The lines of an alarm.
   *
   * @param knob code that the knob stands at; of no matter where the limit is fixed
   */
  public static LimitLines of(Alarm alarm, int knob) {
    double back = alarm.hysteresis().doubleValue();
    if (alarm.limit() instanceof Limit.Above above) {
      double limit = limit(above.setting(), knob);
      return new LimitLines(List.of(limit), List.of(limit - back));
    }
    if (alarm.limit() instanceof Limit.Below below) {
      double limit = limit(below.setting(), knob);
      return new LimitLines(List.of(limit), List.of(limit + back));
    }
    Limit.Outside outside = (Limit.Outside) alarm.limit();
    double low = outside.low().doubleValue();
    double high = outside.high().doubleValue();
    return new LimitLines(List.of(low, high), List.of(low + back, high - back));
  }

  private static double limit(Alarm.Setting setting, int knob) {
    if (setting instanceof Alarm.Setting.Knob turned) {
      double from = turned.from().doubleValue();
      return from + (turned.to().doubleValue() - from) * knob / Knob.TOP;
    }
    return ((Alarm.Setting.Fixed) setting).threshold().doubleValue();
  }

  /** All of them. */
  public Stream<Double> all() {
    return Stream.concat(trip.stream(), clear.stream());
  }
}
