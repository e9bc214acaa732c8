package dev.ullage.replay;

import dev.ullage.firmware.Arithmetic;
import dev.ullage.loop.Loop;
import java.util.OptionalLong;

/**
 * The emitted firmware from a frame to the alarm, in the same whole numbers and the same order.
 * Takes readings one by one.
 */
public final class LoopMachine {
  private final FrameReduction reduction;
  private final OverTime overTime;
  private final AlarmState alarm;
  private final int frozenAfter;
  private long unchangedValue;
  private int unchanged;

  /**
   * @param knob code of the knob's converter, 0 to 1023; of no matter where the limit is fixed
   */
  public LoopMachine(Loop loop, Arithmetic arithmetic, int knob) {
    this.reduction = new FrameReduction(loop, arithmetic);
    this.overTime = OverTime.of(loop.average());
    this.alarm = new AlarmState(loop.alarm(), arithmetic.limits(), knob);
    this.frozenAfter = loop.sensor().frozenAfter();
  }

  /**
   * What a reading led to.
   *
   * @param good false where it failed, or has not changed for too long
   * @param sum what was judged, in counts; empty where nothing was
   * @param alarm whether the alarm is on afterwards
   */
  public record Step(boolean good, OptionalLong sum, boolean alarm) {}

  /** Takes one reading in. */
  public Step take(Reading reading) {
    if (reading.failed()) {
      return failed();
    }
    long value = reduction.value(reading.raw());
    if (isFrozen(value)) {
      return failed();
    }
    OptionalLong sum = overTime.add(value);
    alarm.forgive();
    sum.ifPresent(alarm::judge);
    return new Step(true, sum, alarm.on());
  }

  /** Somebody presses the mute button between two readings. */
  public void pressMute() {
    alarm.press();
  }

  private Step failed() {
    alarm.fault();
    return new Step(false, OptionalLong.empty(), alarm.on());
  }

  /** From the reading on that is the last allowed one without any change. */
  private boolean isFrozen(long value) {
    if (frozenAfter == 0) {
      return false;
    }
    if (value != unchangedValue) {
      unchangedValue = value;
      unchanged = 0;
      return false;
    }
    unchanged = Math.min(unchanged + 1, frozenAfter);
    return unchanged >= frozenAfter;
  }
}
