package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Plan;
import dev.ullage.loop.LoopReader;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.List;
import org.junit.jupiter.api.Test;

class DescriptionTest {
  @Test
  void smallLoop_isToldInFull() {
    assertEquals(
        List.of(
            "Every 700 ms it reads 16 samples of 2 bytes from the sensor at address 0x68.",
            "It judges the mean of the samples of each reading.",
            "The alarm goes on when that is above what the knob says (30 degC at its lowest"
                + " voltage, 45 degC at the supply), and off when it is back by 1.5 degC.",
            "After more than 5 failed readings in a row the alarm goes on.",
            "The alarm lights the lamp."),
        describe(
            """
            loop: a
            period_ms: 700
            sensor:
              bus: i2c
              address: 0x68
              ask: [0x80]
              frame: {samples: 16, sample_bytes: 2, byte_order: little, signed: true}
              scale: {gain: 0.25, offset: 0, unit: degC}
            alarm: {when: above, knob: {from: 30, to: 45}, hysteresis: 1.5}
            outputs: {lamp: {blink_ms: 0}}
            """));
  }

  @Test
  void limitsAndCounts_areNamed() {
    List<String> told =
        describe(
            """
            loop: b
            sensor:
              bus: i2c
              address: 0x4D
              frame: {sample_bytes: 2, signed: false, shift_right: 4}
              scale: {gain: 0.1, offset: 0, unit: mm}
            average: {over_time: median, readings: 5}
            alarm:
              when: outside
              low: 12
              high: 180
              hysteresis: 4
              trip_after: 6
              clear_after: 1
              latch: true
              on_sensor_fault: quiet
              faults_allowed: 1
            outputs: {sounder: {tone_hz: 3000, on_ms: 150, off_ms: 850}}
            extras: {mute_button: true}
            """);
    assertTrue(told.contains("It judges the median of the value over the last 5 readings."));
    assertTrue(
        told.contains(
            "The alarm goes on when that is below 12 mm or above 180 mm in 6 readings in a row, and"
                + " off when it is back by 4 mm."));
    assertTrue(told.contains("After more than 1 failed reading in a row the alarm goes off."));
    assertTrue(
        told.contains("The alarm sounds the sounder with 3000 Hz, 150 ms on and 850 ms off."));
    assertTrue(told.contains("Once on, it stays on until the mute button is pressed."));
  }

  private static List<String> describe(String yaml) {
    Target target = Catalogue.load().target("atmega328p").orElseThrow();
    Plan plan = Plan.of(LoopReader.read("loop.yaml", yaml), target);
    return Description.of(((Plan.Possible) plan).firmware());
  }
}
