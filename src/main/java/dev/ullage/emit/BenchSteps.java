package dev.ullage.emit;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;
import java.util.ArrayList;
import java.util.List;

/** How to try a firmware on its part, in sentences for the README of its firmware. */
final class BenchSteps {
  private final Loop loop;
  private final Alarm alarm;

  private BenchSteps(Loop loop) {
    this.loop = loop;
    this.alarm = loop.alarm();
  }

  /** Plain text, not escaped. */
  static List<String> of(Loop loop) {
    BenchSteps bench = new BenchSteps(loop);
    List<String> steps = new ArrayList<>();
    steps.add("With the sensor attached and its value inside the limit the alarm stays off.");
    steps.add(bench.past());
    if (loop.extras().muteButton() && loop.outputs().sounder().isPresent()) {
      steps.add("Press the button: the sounder is silent until the next alarm.");
    }
    steps.add(bench.back());
    steps.add(bench.withoutSensor());
    return List.copyOf(steps);
  }

  private String past() {
    String way =
        alarm.limit().knob().isPresent() ? "Turn the knob past the value" : "Pass the limit";
    return way + ": the alarm goes on when " + judgedIs("past it", alarm.tripAfter());
  }

  private String back() {
    String way = alarm.latch() ? "Go back, and press the button" : "Go back";
    return way + ": the alarm goes off when " + judgedIs("inside", alarm.clearAfter());
  }

  private String judgedIs(String there, int readings) {
    boolean single = loop.average().overTime() == Average.OverTime.NONE;
    String judged = single ? "the value " : "the average ";
    return readings == 1
        ? judged + "is " + there + '.'
        : judged + "has been " + there + " for " + readings + " readings.";
  }

  private String withoutSensor() {
    long ms = (alarm.faultsAllowed() + 1L) * loop.periodMs();
    String then =
        switch (alarm.onSensorFault()) {
          case ALARM -> "the alarm goes on";
          case HOLD -> "the alarm is still as it was";
          case QUIET -> "an alarm goes off";
        };
    return "Unplug the sensor: after about "
        + ms
        + " ms "
        + then
        + ". Plug it in, and the readings go on.";
  }
}
