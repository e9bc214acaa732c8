package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.loop.LoopReader;
import java.util.List;
import org.junit.jupiter.api.Test;

class BenchStepsTest {
  private static List<String> steps(String alarm, String rest) {
    String loop =
        """
        loop: a
        period_ms: 700
        sensor: {address: 0x48, scale: {gain: 0.125, unit: degC}}
        alarm: {when: above, %s}
        %s
        """;
    return BenchSteps.of(LoopReader.read("loop.yaml", loop.formatted(alarm, rest)));
  }

  @Test
  void fixedLimit_isPassedByTheValue() {
    assertEquals(
        List.of(
            "With the sensor attached and its value inside the limit the alarm stays off.",
            "Pass the limit: the alarm goes on when the value has been past it for 3 readings.",
            "Go back: the alarm goes off when the value is inside.",
            "Unplug the sensor: after about 2100 ms the alarm goes on. Plug it in, and the readings"
                + " go on."),
        steps("threshold: 8, trip_after: 3, faults_allowed: 2", ""));
  }

  @Test
  void knobButtonAndLatch_areUsed() {
    assertEquals(
        List.of(
            "With the sensor attached and its value inside the limit the alarm stays off.",
            "Turn the knob past the value: the alarm goes on when the average is past it.",
            "Press the button: the sounder is silent until the next alarm.",
            "Go back, and press the button: the alarm goes off when the average has been inside for"
                + " 4 readings.",
            "Unplug the sensor: after about 1400 ms an alarm goes off. Plug it in, and the readings"
                + " go on."),
        steps(
            "knob: {from: 2, to: 12}, clear_after: 4, latch: true, on_sensor_fault: quiet,"
                + " faults_allowed: 1",
            "average: {over_time: moving, readings: 2}\noutputs: {sounder: {}}\nextras: {mute_button: true}"));
  }
}
