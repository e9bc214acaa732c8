package dev.ullage.slim;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Alarm.Limit;
import dev.ullage.loop.Alarm.Setting;
import dev.ullage.loop.Loop;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A plainer alarm. What it watches for, and what a dead sensor does, stay as they are. */
final class AlarmChanges {
  private static final int COUNTS = 6;
  private static final int HYSTERESIS = 6;
  private static final int KNOB = 8;
  private static final int LATCH = 8;
  private static final BigDecimal TWO = BigDecimal.valueOf(2);
  private static final int MOST_DECIMALS = 9;

  private AlarmChanges() {}

  static List<Change> of(Loop loop) {
    List<Change> changes = new ArrayList<>();
    counts(loop.alarm()).ifPresent(changes::add);
    hysteresis(loop).ifPresent(changes::add);
    knob(loop).ifPresent(changes::add);
    latch(loop.alarm()).ifPresent(changes::add);
    return changes;
  }

  /** The counter goes only when nothing counts any more. */
  private static Optional<Change> counts(Alarm alarm) {
    if (alarm.tripAfter() == 1 && alarm.clearAfter() == 1) {
      return Optional.empty();
    }
    return Optional.of(
        Change.of(
            Aspect.COUNTS,
            "alarm.trip_after, clear_after",
            alarm.tripAfter() + ", " + alarm.clearAfter(),
            "1, 1",
            COUNTS,
            "one reading past the limit is enough to start the alarm, and one inside to end it",
            l ->
                Optional.of(
                    l.with(alarm(l.alarm(), l.alarm().limit(), l.alarm().hysteresis(), 1, 1)))));
  }

  /** Only where successive readings still keep the alarm from chattering at the limit. */
  private static Optional<Change> hysteresis(Loop loop) {
    BigDecimal now = loop.alarm().hysteresis();
    if (now.signum() == 0) {
      return Optional.empty();
    }
    return Optional.of(
        Change.of(
            Aspect.HYSTERESIS,
            "alarm.hysteresis",
            now.toPlainString(),
            "0",
            HYSTERESIS,
            "near the limit the alarm may come and go; only clear_after holds it",
            l -> l.alarm().clearAfter() > 1 ? Optional.of(withoutGap(l)) : Optional.empty()));
  }

  private static Loop withoutGap(Loop loop) {
    Alarm now = loop.alarm();
    return loop.with(alarm(now, now.limit(), BigDecimal.ZERO, now.tripAfter(), now.clearAfter()));
  }

  private static Optional<Change> knob(Loop loop) {
    Limit limit = loop.alarm().limit();
    Optional<Setting.Knob> knob = limit.knob();
    if (knob.isEmpty()) {
      return Optional.empty();
    }
    BigDecimal middle = middle(knob.get());
    String unit = loop.sensor().scale().unit();
    String from = knob.get().from().toPlainString();
    String to = knob.get().to().toPlainString();
    Setting fixed = new Setting.Fixed(middle);
    Limit still = limit instanceof Limit.Above ? new Limit.Above(fixed) : new Limit.Below(fixed);
    return Optional.of(
        Change.of(
            Aspect.KNOB,
            "alarm.knob",
            "from " + from + " to " + to,
            "threshold " + middle.toPlainString(),
            KNOB,
            "no knob: the limit is fixed at "
                + middle.toPlainString()
                + " "
                + unit
                + ", the knob's middle, until you write another alarm.threshold and build again",
            l -> Optional.of(l.with(withLimit(l.alarm(), still)))));
  }

  private static BigDecimal middle(Setting.Knob knob) {
    BigDecimal exact = knob.from().add(knob.to()).divide(TWO);
    int decimals = Math.min(MOST_DECIMALS, exact.scale());
    BigDecimal short9 = exact.setScale(decimals, RoundingMode.DOWN).stripTrailingZeros();
    return short9.scale() < 0 ? short9.setScale(0) : short9;
  }

  private static Optional<Change> latch(Alarm alarm) {
    if (!alarm.latch()) {
      return Optional.empty();
    }
    return Optional.of(
        Change.of(
            Aspect.LATCH,
            "alarm.latch",
            "true",
            "false",
            LATCH,
            "the alarm ends by itself when the value is back, whether someone has come or not",
            l -> Optional.of(l.with(unlatched(l.alarm())))));
  }

  private static Alarm unlatched(Alarm a) {
    return new Alarm(
        a.limit(),
        a.hysteresis(),
        a.tripAfter(),
        a.clearAfter(),
        false,
        a.onSensorFault(),
        a.faultsAllowed());
  }

  private static Alarm withLimit(Alarm a, Limit limit) {
    return alarm(a, limit, a.hysteresis(), a.tripAfter(), a.clearAfter());
  }

  private static Alarm alarm(Alarm a, Limit limit, BigDecimal gap, int trip, int clear) {
    return new Alarm(limit, gap, trip, clear, a.latch(), a.onSensorFault(), a.faultsAllowed());
  }
}
