package dev.ullage.replay;

import dev.ullage.firmware.Arithmetic.Limits;
import dev.ullage.firmware.Knob;
import dev.ullage.loop.Alarm;

/** The alarm, and all that it remembers. */
final class AlarmState {
  private final Alarm alarm;
  private final Limits limits;
  private final int knob;
  private boolean on;
  private boolean muted;
  private int run;
  private int faults;

  /**
   * @param knob code of the converter, 0 to 1023; of no matter where the limit is fixed
   */
  AlarmState(Alarm alarm, Limits limits, int knob) {
    this.alarm = alarm;
    this.limits = limits;
    this.knob = knob;
  }

  boolean on() {
    return on;
  }

  /** A reading was good. */
  void forgive() {
    faults = 0;
  }

  /** A reading has failed. */
  void fault() {
    if (alarm.onSensorFault() == Alarm.OnFault.HOLD) {
      return;
    }
    if (faults < alarm.faultsAllowed()) {
      faults++;
      return;
    }
    boolean wanted = alarm.onSensorFault() == Alarm.OnFault.ALARM;
    if (on != wanted) {
      set(wanted);
    }
  }

  void judge(long sum) {
    boolean past = isPast(sum);
    if (past == on) {
      run = 0;
    } else if (++run >= (on ? alarm.clearAfter() : alarm.tripAfter())) {
      set(past);
    }
  }

  /** Somebody presses the mute button; it counts while the alarm is on. */
  void press() {
    muted |= on;
  }

  private void set(boolean wanted) {
    run = 0;
    if (alarm.latch() && !wanted && !muted) {
      return;
    }
    on = wanted;
    muted = false;
  }

  private boolean isPast(long sum) {
    if (limits instanceof Limits.Above above) {
      return sum > (on ? above.clear() : above.trip());
    }
    if (limits instanceof Limits.Below below) {
      return sum < (on ? below.clear() : below.trip());
    }
    if (limits instanceof Limits.Outside outside) {
      return sum < (on ? outside.clearLow() : outside.tripLow())
          || sum > (on ? outside.clearHigh() : outside.tripHigh());
    }
    return isPast(sum, (Limits.Turned) limits);
  }

  private boolean isPast(long sum, Limits.Turned turned) {
    long moved = Knob.scaled(knob, turned.multiplier());
    long limit = turned.rising() ? turned.low() + moved : turned.low() - moved;
    long back = on ? turned.hysteresis() : 0;
    return turned.above() ? sum > limit - back : sum < limit + back;
  }
}
