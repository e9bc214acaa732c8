package dev.ullage.emit;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.loop.Sensor;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The checks that run on the user's own computer: the portable sources between a fake port and a
 * fake sensor, held against a computation that starts from the loop's own units.
 */
final class HostCheck {
  private static final List<String> FILES =
      List.of(
          "loop.h",
          "fake.h",
          "world.h",
          "world.c",
          "sensor.c",
          "expected.h",
          "expected.c",
          "check.c",
          "play.c");

  /** Names of choices: in C each is its place here, and none stands for two things. */
  private static final List<String> WORDS =
      List.of(
          "REDUCE_MEAN",
          "REDUCE_MAX",
          "REDUCE_MIN",
          "REDUCE_SHARE_ABOVE",
          "OVER_NONE",
          "OVER_BLOCK",
          "OVER_MOVING",
          "OVER_EXPONENTIAL",
          "OVER_MEDIAN",
          "WHEN_ABOVE",
          "WHEN_BELOW",
          "WHEN_OUTSIDE",
          "FAULT_ALARM",
          "FAULT_HOLD",
          "FAULT_QUIET",
          "CHECK_NONE",
          "CHECK_OF_SAMPLE",
          "CHECK_OF_FRAME",
          "REPORT_NONE",
          "REPORT_AVERAGE",
          "REPORT_FRAME");

  private final Firmware firmware;
  private final Loop loop;
  private final Map<String, String> numbers = new LinkedHashMap<>();

  private HostCheck(Firmware firmware, List<EmittedFile> sources) {
    this.firmware = firmware;
    this.loop = firmware.loop();
    sensor();
    frame();
    time();
    average();
    limit();
    alarm();
    outputs();
    extras();
    // Blinking, beeping and the mute button go by ticks, where there is any of them.
    put("STEPS", sources.stream().anyMatch(HostCheck::declaresSteps));
  }

  /**
   * The files below {@code check/}.
   *
   * @param sources what they check
   */
  static List<EmittedFile> of(Firmware firmware, List<EmittedFile> sources) {
    Map<String, Object> model =
        Map.of(
            "project",
            Escape.cComment(firmware.loop().name()),
            "title",
            firmware.target().title(),
            "driver",
            firmware.bus().driver() == BusDriver.BUFFERED ? "buffered" : "stream",
            "words",
            WORDS,
            "numbers",
            new HostCheck(firmware, sources).numbers);
    return FILES.stream()
        .map(
            name ->
                new EmittedFile(
                    "check/" + name,
                    Templates.render("portable/check/" + name + ".ftl", model),
                    EmittedFile.Policy.REPLACE))
        .toList();
  }

  private static boolean declaresSteps(EmittedFile file) {
    return file.path().equals("src/outputs.h") && file.text().contains("outputs_step(");
  }

  private void sensor() {
    Sensor sensor = loop.sensor();
    List<Integer> ask = sensor.ask().isEmpty() ? List.of(0) : sensor.ask();
    put("ADDRESS", sensor.address());
    put("ASK_BYTES", sensor.ask().size());
    put("ASK", ask.stream().map(String::valueOf).collect(Collectors.joining(", ", "{", "}")));
    put("RESTART", sensor.restart());
    put("WAIT_MS", sensor.waitMs());
    put("FROZEN_AFTER", sensor.frozenAfter());
    put("GAIN", sensor.scale().gain());
    put("OFFSET", sensor.scale().offset());
  }

  private void frame() {
    Frame frame = loop.sensor().frame();
    put("SKIP_BYTES", frame.skipBytes());
    put("SAMPLES", frame.samples());
    put("SAMPLE_BYTES", frame.sampleBytes());
    put("BIG_ENDIAN", frame.byteOrder() == Frame.ByteOrder.BIG);
    put("SHIFT", frame.shiftRight());
    put("RAW_BITS", frame.rawBits());
    put("RAW_MIN", BigDecimal.valueOf(frame.rawMin()));
    put("RAW_MAX", BigDecimal.valueOf(frame.rawMax()));
    put("CHECK", frame.check().map(crc -> "CHECK_OF_" + crc.over()).orElse("CHECK_NONE"));
    put("CHECK_POLY", frame.check().map(Frame.Crc8::poly).orElse(0));
    put("CHECK_INIT", frame.check().map(Frame.Crc8::init).orElse(0));
  }

  private void time() {
    put("PERIOD_MS", loop.periodMs());
    put("TICK_MS", BigDecimal.valueOf(firmware.pace().exactTickMs()));
  }

  private void average() {
    Average average = loop.average();
    put("REDUCE", "REDUCE_" + average.frame());
    put("LEVEL", average.level().orElse(BigDecimal.ZERO));
    put("OVER_TIME", "OVER_" + average.overTime());
    put("READINGS", average.readings());
    put(
        "SUMS",
        average.overTime() != Average.OverTime.NONE
            && average.overTime() != Average.OverTime.MEDIAN);
    // The only rounding that the numbers of the loop do not decide by themselves.
    put("SHIFTS", Integer.bitCount(average.readings()) == 1);
  }

  private void limit() {
    Alarm.Limit limit = loop.alarm().limit();
    if (limit instanceof Alarm.Limit.Outside outside) {
      limit("OUTSIDE", outside.low(), outside.high(), Optional.empty());
    } else if (limit instanceof Alarm.Limit.Above above) {
      oneSided("ABOVE", above.setting());
    } else if (limit instanceof Alarm.Limit.Below below) {
      oneSided("BELOW", below.setting());
    }
  }

  private void oneSided(String when, Alarm.Setting setting) {
    if (setting instanceof Alarm.Setting.Knob knob) {
      limit(when, knob.from(), knob.to(), Optional.of(knob));
    } else if (setting instanceof Alarm.Setting.Fixed fixed) {
      limit(when, fixed.threshold(), fixed.threshold(), Optional.empty());
    }
  }

  private void limit(
      String when, BigDecimal low, BigDecimal high, Optional<Alarm.Setting.Knob> knob) {
    put("WHEN", "WHEN_" + when);
    put("LOW", low);
    put("HIGH", high);
    put("KNOB", knob.isPresent());
    put("KNOB_FROM", knob.map(Alarm.Setting.Knob::from).orElse(BigDecimal.ZERO));
    put("KNOB_TO", knob.map(Alarm.Setting.Knob::to).orElse(BigDecimal.ONE));
  }

  private void alarm() {
    Alarm alarm = loop.alarm();
    put("HYSTERESIS", alarm.hysteresis());
    put("TRIP_AFTER", alarm.tripAfter());
    put("CLEAR_AFTER", alarm.clearAfter());
    put("LATCH", alarm.latch());
    put("ON_FAULT", "FAULT_" + alarm.onSensorFault());
    put("FAULTS_ALLOWED", alarm.faultsAllowed());
  }

  private void outputs() {
    Outputs outputs = loop.outputs();
    put("LAMP", outputs.lamp().isPresent());
    put("LAMP_BLINK_MS", outputs.lamp().map(Outputs.Lamp::blinkMs).orElse(0));
    put("SOUNDER", outputs.sounder().isPresent());
    put("SOUNDER_ON_MS", outputs.sounder().map(Outputs.Sounder::onMs).orElse(0));
    put("SOUNDER_OFF_MS", outputs.sounder().map(Outputs.Sounder::offMs).orElse(0));
    put("RELAY", outputs.relay().isPresent());
  }

  private void extras() {
    Extras extras = loop.extras();
    put("MUTE", extras.muteButton());
    put("SETTINGS", extras.settings());
    put("REPORT", extras.report().map(report -> "REPORT_" + report.send()).orElse("REPORT_NONE"));
  }

  private void put(String name, boolean value) {
    put(name, value ? "1" : "0");
  }

  private void put(String name, int value) {
    put(name, Integer.toString(value));
  }

  /** Always with a point, so that C takes it for a double. */
  private void put(String name, BigDecimal value) {
    String digits = value.toPlainString();
    put(name, digits.contains(".") ? digits : digits + ".0");
  }

  private void put(String name, String text) {
    numbers.put("LOOP_" + name, text.startsWith("-") ? '(' + text + ')' : text);
  }
}
