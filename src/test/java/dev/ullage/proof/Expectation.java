package dev.ullage.proof;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Alarm.Limit;
import dev.ullage.loop.Alarm.OnFault;
import dev.ullage.loop.Alarm.Setting;
import dev.ullage.loop.Average.OverTime;
import dev.ullage.loop.Loop;
import dev.ullage.proof.UnitAverage.Mean;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/** What the alarm of a loop should do, computed in the unit of its sensor. */
final class Expectation {
  private static final int SUPPLY_MV = 5000;
  private static final int TOP_CODE = 1023;
  // The firmware folds a knob's limit to whole counts, and rounds its steps.
  private static final int KNOB_COUNTS = 4;

  private final Loop loop;
  private final Alarm alarm;
  private final UnitAverage average;
  private final StringBuilder alarms = new StringBuilder();
  private final List<Optional<Mean>> averages = new ArrayList<>();
  private final BitSet failed = new BitSet();
  private BigDecimal knob = BigDecimal.ZERO;
  private Optional<BigDecimal> kept = Optional.empty();
  private Optional<Mean> lastFrame = Optional.empty();
  private boolean on;
  private boolean muted;
  private boolean isClear = true;
  private int run;
  private int faults;
  private int unchanged;

  Expectation(Loop loop) {
    this.loop = loop;
    this.alarm = loop.alarm();
    this.average = new UnitAverage(loop);
  }

  /** The alarm after each reading, {@code #} for on and a dot for off. */
  String alarms() {
    return alarms.toString();
  }

  boolean isOn() {
    return on;
  }

  /** For each reading the average that was judged, if one was; nothing for a failed reading. */
  List<Optional<Mean>> averages() {
    return List.copyOf(averages);
  }

  /** Whether a reading failed, or counted as failed because nothing had changed. */
  boolean isFault(int reading) {
    return failed.get(reading);
  }

  /** False once an average came nearer to a limit than the firmware is meant to be exact. */
  boolean isClear() {
    return isClear;
  }

  /** The potentiometer, as the ten bits of the converter see it. */
  void knob(int millivolts) {
    knob = BigDecimal.valueOf((long) millivolts * TOP_CODE / SUPPLY_MV);
  }

  /** A threshold from the EEPROM, instead of the loop file's. */
  void kept(BigDecimal threshold) {
    kept = Optional.of(threshold);
  }

  /** The mute button is pressed; it does nothing while there is no alarm. */
  void press() {
    muted = muted || on;
  }

  void frame(long... raw) {
    if (isFrozen(average.ofFrame(raw))) {
      fault();
      return;
    }
    faults = 0;
    Optional<Mean> mean = average.add(raw);
    mean.ifPresent(this::judge);
    note(mean);
  }

  private boolean isFrozen(Mean frame) {
    // A first frame of zero counts would be one too many here: the firmware starts from zero.
    boolean same = lastFrame.isPresent() && lastFrame.get().sum().compareTo(frame.sum()) == 0;
    unchanged = same ? unchanged + 1 : 0;
    lastFrame = Optional.of(frame);
    return loop.sensor().frozenAfter() > 0 && unchanged >= loop.sensor().frozenAfter();
  }

  void fault() {
    failed.set(averages.size());
    if (alarm.onSensorFault() != OnFault.HOLD && ++faults > alarm.faultsAllowed()) {
      boolean wanted = alarm.onSensorFault() == OnFault.ALARM;
      if (wanted != on) {
        set(wanted);
      }
    }
    note(Optional.empty());
  }

  private void note(Optional<Mean> mean) {
    averages.add(mean);
    alarms.append(on ? '#' : '.');
  }

  private void judge(Mean mean) {
    boolean past = isPast(mean);
    if (past == on) {
      run = 0;
    } else if (++run >= (on ? alarm.clearAfter() : alarm.tripAfter())) {
      set(past);
    }
  }

  private void set(boolean wanted) {
    run = 0;
    if (wanted || !alarm.latch() || muted) {
      on = wanted;
      muted = false;
    }
  }

  private boolean isPast(Mean mean) {
    BigDecimal back = on ? alarm.hysteresis() : BigDecimal.ZERO;
    if (alarm.limit() instanceof Limit.Above above) {
      return isAbove(mean, turned(above.setting()).subtract(back));
    }
    if (alarm.limit() instanceof Limit.Below below) {
      return isBelow(mean, turned(below.setting()).add(back));
    }
    Limit.Outside outside = (Limit.Outside) alarm.limit();
    return isBelow(mean, outside.low().add(back)) | isAbove(mean, outside.high().subtract(back));
  }

  private BigDecimal turned(Setting setting) {
    if (setting instanceof Setting.Knob ends) {
      return ends.from()
          .add(
              ends.to()
                  .subtract(ends.from())
                  .multiply(knob)
                  .divide(BigDecimal.valueOf(TOP_CODE), MathContext.DECIMAL128));
    }
    return kept.orElse(((Setting.Fixed) setting).threshold());
  }

  private boolean isAbove(Mean mean, BigDecimal limit) {
    watch(mean, limit);
    return mean.compareTo(limit) > 0;
  }

  private boolean isBelow(Mean mean, BigDecimal limit) {
    watch(mean, limit);
    return mean.compareTo(limit) < 0;
  }

  private void watch(Mean mean, BigDecimal limit) {
    BigDecimal distance = mean.value().subtract(limit).abs();
    isClear = isClear && distance.compareTo(leeway()) >= 0;
  }

  /** How far the firmware's average or limit may be off; zero where its arithmetic is exact. */
  BigDecimal leeway() {
    BigDecimal count = count();
    boolean hasKnob =
        alarm.limit() instanceof Limit.Above above && above.setting() instanceof Setting.Knob
            || alarm.limit() instanceof Limit.Below below
                && below.setting() instanceof Setting.Knob;
    OverTime over = loop.average().overTime();
    boolean rounds = over == OverTime.EXPONENTIAL;
    boolean sums = rounds || over == OverTime.MOVING || over == OverTime.BLOCK;
    int readings = sums ? loop.average().readings() : 1;
    // The smoothed value is kept in whole counts of a frame, each step rounded to the nearest.
    return count
        .multiply(BigDecimal.valueOf(rounds ? 0.51 : 0))
        .add(count.multiply(BigDecimal.valueOf(hasKnob ? (double) KNOB_COUNTS / readings : 0)));
  }

  /** What one count of a reduced frame is worth. */
  BigDecimal count() {
    BigDecimal samples = BigDecimal.valueOf(loop.sensor().frame().samples());
    return switch (loop.average().frame()) {
      case SHARE_ABOVE -> BigDecimal.valueOf(100).divide(samples, MathContext.DECIMAL64);
      case MEAN -> loop.sensor().scale().gain().abs().divide(samples, MathContext.DECIMAL64);
      default -> loop.sensor().scale().gain().abs();
    };
  }
}
