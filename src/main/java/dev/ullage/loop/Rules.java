package dev.ullage.loop;

import dev.ullage.input.Findings;

/**
 * What a loop must obey beyond the range of each single key. Each rule looks only at keys that were
 * found right so far, so that one mistake makes one finding.
 */
final class Rules {
  private final SensorRules sensor;
  private final AverageRules average;
  private final LimitRules limit;
  private final AlarmRules alarm;
  private final WholeRules whole;

  Rules(Loop loop, Draft draft, Findings findings) {
    Judge judge = new Judge(loop, draft, findings);
    sensor = new SensorRules(judge);
    average = new AverageRules(judge);
    limit = new LimitRules(judge);
    alarm = new AlarmRules(judge);
    whole = new WholeRules(judge);
  }

  /** Every rule, in an order in which a later one builds on the earlier. */
  void judge() {
    sensor.columnsDivideSamples();
    sensor.shiftLeavesBits();
    sensor.bitsAreThere();
    sensor.askFitsSendBuffer();
    sensor.frameFitsReceiveBuffer();
    sensor.waitHasSomethingToWaitFor();
    sensor.gainIsNotZero();
    sensor.scaleDoesNotOverflow();

    average.readingsSuitOverTime();
    average.levelGoesWithShare();
    average.levelCanBeRead();
    average.sumFits();

    limit.isGivenOnce();
    limit.lowIsBelowHigh();
    limit.knobRises();
    limit.canBeRead();
    limit.canBePassed();

    alarm.hysteresisFitsRange();
    alarm.canClear();
    alarm.latchHasMuteButton();
    alarm.settingsHaveThreshold();

    whole.somethingIsDriven();
    whole.periodHoldsReading();
    whole.watchdogHoldsReading();
    whole.pinsAreUsedOnce();
  }
}
