package dev.ullage.loop;

import java.math.BigDecimal;

/** Rules for how the alarm clears, and for what it needs besides. */
final class AlarmRules {
  private static final BigDecimal TWO = BigDecimal.valueOf(2);

  private final Judge judge;
  private final Alarm alarm;
  private final ValueRange range;

  AlarmRules(Judge judge) {
    this.judge = judge;
    this.alarm = judge.loop.alarm();
    this.range = ValueRange.ofJudged(judge.loop.sensor(), judge.loop.average());
  }

  void hysteresisFitsRange() {
    if (trustsRange() && alarm.hysteresis().compareTo(range.width()) > 0) {
      reportHysteresis(range.width(), "the width of what can ever be read");
    }
  }

  /** The alarm clears at or inside the limit moved back; that must be a value that can be read. */
  void canClear() {
    if (!trustsRange()
        || !judge.trusts("alarm.when", "alarm.threshold", "alarm.low", "alarm.high")) {
      return;
    }
    if (alarm.limit() instanceof Alarm.Limit.Outside outside) {
      BigDecimal half = outside.high().subtract(outside.low()).divide(TWO);
      if (alarm.hysteresis().compareTo(half) >= 0) {
        judge.report(
            "alarm.hysteresis",
            judge.judged(alarm.hysteresis()),
            "less than half of the way from `low` to `high`, " + judge.judged(Numbers.plain(half)));
      }
    } else if (LimitRules.settingOf(alarm.limit()) instanceof Alarm.Setting.Fixed fixed) {
      BigDecimal room =
          alarm.limit() instanceof Alarm.Limit.Above
              ? fixed.threshold().subtract(range.low())
              : range.high().subtract(fixed.threshold());
      if (alarm.hysteresis().compareTo(room) > 0) {
        reportHysteresis(room, "or no reading could clear the alarm");
      }
    }
  }

  private void reportHysteresis(BigDecimal most, String why) {
    judge.report(
        "alarm.hysteresis",
        judge.judged(alarm.hysteresis()),
        "at most " + judge.judged(Numbers.plain(most)) + ", " + why);
  }

  private boolean trustsRange() {
    return judge.trusts("alarm.hysteresis", "sensor.frame", "sensor.scale", "average.frame");
  }

  void latchHasMuteButton() {
    if (judge.trusts("alarm.latch", "extras.mute_button")
        && alarm.latch()
        && !judge.loop.extras().muteButton()) {
      judge.report(
          "alarm.latch",
          "true",
          "false without a mute button, which alone ends it",
          "set `extras.mute_button` to true");
    }
  }

  void settingsHaveThreshold() {
    if (!judge.trusts("extras.settings", "alarm.when", "alarm.knob")
        || !judge.loop.extras().settings()) {
      return;
    }
    if (alarm.limit() instanceof Alarm.Limit.Outside) {
      judge.report(
          "extras.settings", "true, which is not available yet", "false with when: outside");
    } else if (LimitRules.settingOf(alarm.limit()) instanceof Alarm.Setting.Knob) {
      judge.report(
          "extras.settings",
          "true",
          "false with a knob, which already sets the threshold",
          "leave out `settings`, or give `alarm.threshold` instead of the knob");
    }
  }
}
