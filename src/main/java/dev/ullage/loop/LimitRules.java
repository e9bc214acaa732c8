package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Rules for the limit of the alarm. */
final class LimitRules {
  private static final String[] LIMITS = {
    "alarm.threshold", "alarm.knob", "alarm.low", "alarm.high"
  };

  private final Judge judge;
  private final Alarm.Limit limit;
  private final ValueRange range;

  LimitRules(Judge judge) {
    this.judge = judge;
    this.limit = judge.loop.alarm().limit();
    this.range = ValueRange.ofJudged(judge.loop.sensor(), judge.loop.average());
  }

  void isGivenOnce() {
    if (!judge.trusts("alarm.when") || !judge.trusts(LIMITS)) {
      return;
    }
    if (limit instanceof Alarm.Limit.Outside) {
      bothEndsAreGiven();
    } else {
      oneSettingIsGiven();
    }
  }

  private void bothEndsAreGiven() {
    for (String end : new String[] {"alarm.low", "alarm.high"}) {
      if (!judge.given(end)) {
        judge.report(end, "missing", "given with when: outside");
      }
    }
    for (String other : new String[] {"alarm.threshold", "alarm.knob"}) {
      if (judge.given(other)) {
        judge.report(
            other, "given", "left out with when: outside", "give `low` and `high` instead");
      }
    }
  }

  private void oneSettingIsGiven() {
    for (String end : new String[] {"alarm.low", "alarm.high"}) {
      if (judge.given(end)) {
        judge.report(
            end,
            "given",
            "left out unless `when` is outside",
            "give `threshold`, or choose when: outside");
      }
    }
    if (judge.given("alarm.threshold") && judge.given("alarm.knob")) {
      judge.report(
          "alarm.knob", "given beside `threshold`", "the only thing that sets the threshold");
    } else if (!judge.given("alarm.threshold") && !judge.given("alarm.knob")) {
      judge.report("alarm.threshold", "missing", "given, or else `alarm.knob`");
    }
  }

  void lowIsBelowHigh() {
    if (limit instanceof Alarm.Limit.Outside outside
        && trusts("alarm.low", "alarm.high")
        && outside.low().compareTo(outside.high()) >= 0) {
      judge.report(
          "alarm.low",
          judge.judged(outside.low()),
          "less than `alarm.high`, " + judge.judged(outside.high()),
          "the two look swapped");
    }
  }

  void knobRises() {
    if (setting() instanceof Alarm.Setting.Knob knob
        && trusts("alarm.knob")
        && knob.from().compareTo(knob.to()) >= 0) {
      boolean empty = knob.from().compareTo(knob.to()) == 0;
      judge.report(
          "alarm.knob",
          "from " + judge.judged(knob.from()) + " to " + judge.judged(knob.to()),
          "a range that rises",
          empty
              ? "give `threshold` for one value"
              : "swap the two, and the outer wires of the knob");
    }
  }

  void canBeRead() {
    for (End end : ends()) {
      if (trusts(end.key()) && trustsRange() && !range.holds(end.value())) {
        judge.report(
            end.key(),
            judge.judged(end.value()),
            "within what can ever be read, "
                + range.low().toPlainString()
                + " to "
                + judge.judged(range.high()),
            rangeCure(end.value()));
      }
    }
  }

  private String rangeCure(BigDecimal value) {
    if (judge.loop.average().frame() == Average.OfFrame.SHARE_ABOVE) {
      return "a share of the samples is a percentage";
    }
    boolean signed = judge.loop.sensor().frame().signed();
    return signed && ValueRange.ofUnsignedSample(judge.loop.sensor()).holds(value)
        ? "write signed: false in `sensor.frame` if the sensor sends no sign, or move the limit"
        : "check `sensor.frame` and `sensor.scale`, or move the limit";
  }

  /** The alarm trips strictly past its limit, so a limit at the end of the range never trips. */
  void canBePassed() {
    if (!(setting() instanceof Alarm.Setting.Fixed fixed)
        || !trusts("alarm.threshold")
        || !trustsRange()) {
      return;
    }
    boolean above = limit instanceof Alarm.Limit.Above;
    BigDecimal end = above ? range.high() : range.low();
    if (fixed.threshold().compareTo(end) == 0) {
      judge.report(
          "alarm.threshold",
          judge.judged(end) + ", which no reading passes",
          (above ? "less than " : "more than ") + judge.judged(end));
    }
  }

  private boolean trusts(String... keys) {
    return judge.trusts("alarm.when") && judge.trusts(keys);
  }

  private boolean trustsRange() {
    return judge.trusts("sensor.frame", "sensor.scale", "average.frame");
  }

  private Alarm.@Nullable Setting setting() {
    return settingOf(limit);
  }

  /** What sets the threshold; null where there are two limits. */
  static Alarm.@Nullable Setting settingOf(Alarm.Limit limit) {
    if (limit instanceof Alarm.Limit.Above above) {
      return above.setting();
    }
    return limit instanceof Alarm.Limit.Below below ? below.setting() : null;
  }

  private record End(String key, BigDecimal value) {}

  private List<End> ends() {
    List<End> ends = new ArrayList<>();
    if (limit instanceof Alarm.Limit.Outside outside) {
      ends.add(new End("alarm.low", outside.low()));
      ends.add(new End("alarm.high", outside.high()));
    } else if (setting() instanceof Alarm.Setting.Knob knob) {
      ends.add(new End("alarm.knob.from", knob.from()));
      ends.add(new End("alarm.knob.to", knob.to()));
    } else if (setting() instanceof Alarm.Setting.Fixed fixed) {
      ends.add(new End("alarm.threshold", fixed.threshold()));
    }
    return ends;
  }
}
