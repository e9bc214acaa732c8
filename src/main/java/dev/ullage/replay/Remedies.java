package dev.ullage.replay;

import dev.ullage.firmware.Whole;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;
import dev.ullage.replay.Remedy.Setting;
import dev.ullage.replay.Replay.Stretch;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.function.ToIntFunction;

/**
 * What would stop an alarm from coming back too soon: tried out on the trace itself, for each
 * setting alone.
 */
public final class Remedies {
  private static final int MOST_COUNTED = 255;
  private static final int MOST_STEPS = 1 << 16;

  private final Replay now;
  private final Loop loop;

  private Remedies(Replay now) {
    this.now = now;
    this.loop = now.loop();
  }

  /** One for each setting that can do it; none where nothing needs to be done. */
  public static List<Remedy> of(Replay replay) {
    if (Summary.returns(replay) == 0) {
      return List.of();
    }
    Remedies remedies = new Remedies(replay);
    List<Remedy> found = new ArrayList<>();
    remedies.hysteresis().ifPresent(found::add);
    remedies.count(Setting.TRIP_AFTER, loop -> loop.tripAfter()).ifPresent(found::add);
    remedies.count(Setting.CLEAR_AFTER, loop -> loop.clearAfter()).ifPresent(found::add);
    return found;
  }

  /** In steps of what one count of the sensor is worth, as nobody can set it finer. */
  private Optional<Remedy> hysteresis() {
    BigDecimal step =
        loop.average().frame() == Average.OfFrame.SHARE_ABOVE
            ? BigDecimal.valueOf(100)
                .divide(
                    BigDecimal.valueOf(loop.sensor().frame().samples()), 3, RoundingMode.CEILING)
            : loop.sensor().scale().gain().abs();
    BigDecimal from = loop.alarm().hysteresis();
    IntFunction<BigDecimal> value = steps -> from.add(step.multiply(BigDecimal.valueOf(steps)));
    return least(Setting.HYSTERESIS, value, MOST_STEPS);
  }

  private Optional<Remedy> count(Setting setting, ToIntFunction<Alarm> count) {
    int from = count.applyAsInt(loop.alarm());
    return least(setting, steps -> BigDecimal.valueOf(from + steps), MOST_COUNTED - from);
  }

  /**
   * Doubles the steps until it holds, then halves the distance: more nearly always helps more. What
   * is found is played, so it is enough in any case.
   */
  private Optional<Remedy> least(Setting setting, IntFunction<BigDecimal> value, int most) {
    int enough = 1;
    while (!holds(setting, value.apply(Math.min(enough, most)))) {
      if (enough >= most) {
        return Optional.empty();
      }
      enough *= 2;
    }
    enough = Math.min(enough, most);
    int tooLittle = enough / 2;
    while (enough - tooLittle > 1) {
      int middle = (enough + tooLittle) / 2;
      if (holds(setting, value.apply(middle))) {
        enough = middle;
      } else {
        tooLittle = middle;
      }
    }
    BigDecimal found = value.apply(enough);
    return Optional.of(cost(setting, found, now.with(with(setting, found))));
  }

  private boolean holds(Setting setting, BigDecimal value) {
    try {
      Replay then = now.with(with(setting, value));
      return !then.alarms().isEmpty() && Summary.returns(then) == 0;
    } catch (Whole.TooWide wide) {
      return false;
    }
  }

  private Loop with(Setting setting, BigDecimal value) {
    Alarm is = loop.alarm();
    Alarm alarm =
        new Alarm(
            is.limit(),
            setting == Setting.HYSTERESIS ? value : is.hysteresis(),
            setting == Setting.TRIP_AFTER ? value.intValueExact() : is.tripAfter(),
            setting == Setting.CLEAR_AFTER ? value.intValueExact() : is.clearAfter(),
            is.latch(),
            is.onSensorFault(),
            is.faultsAllowed());
    return loop.with(alarm);
  }

  /** Each alarm then beside those of now that it stands for. */
  private Remedy cost(Setting setting, BigDecimal value, Replay then) {
    int laterOn = 0;
    int laterOff = 0;
    for (Stretch alarm : then.alarms()) {
      List<Stretch> same = now.alarms().stream().filter(alarm::touches).toList();
      if (!same.isEmpty()) {
        laterOn = Math.max(laterOn, alarm.first() - same.get(0).first());
        laterOff = Math.max(laterOff, alarm.last() - same.get(same.size() - 1).last());
      }
    }
    int missed =
        (int)
            now.alarms().stream()
                .filter(alarm -> then.alarms().stream().noneMatch(alarm::touches))
                .count();
    return new Remedy(setting, value, then.alarms().size(), laterOn, laterOff, missed);
  }
}
