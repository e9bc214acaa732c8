package dev.ullage.emit;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.loop.Sensor;
import dev.ullage.target.Keeping;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a firmware does, in sentences for the README of its firmware. */
final class Description {
  private final Loop loop;
  private final boolean inFlash;
  private final List<String> sentences = new ArrayList<>();

  private Description(Firmware firmware) {
    this.loop = firmware.loop();
    this.inFlash = firmware.target().family().keeping().filter(Keeping::inFlash).isPresent();
  }

  /** Plain text, not escaped. */
  static List<String> of(Firmware firmware) {
    Description description = new Description(firmware);
    description.reading();
    description.average();
    description.alarm();
    description.faults();
    description.outputs();
    description.extras();
    return List.copyOf(description.sentences);
  }

  private void reading() {
    Sensor sensor = loop.sensor();
    Frame frame = sensor.frame();
    say(
        "Every %d ms it reads %s of %s from the sensor at address 0x%02X.",
        loop.periodMs(),
        counted(frame.samples(), "sample"),
        counted(frame.sampleBytes(), "byte"),
        sensor.address());
    frame
        .check()
        .ifPresent(
            crc ->
                say(
                    "A check byte after %s is verified.",
                    crc.over() == Frame.Crc8.Over.SAMPLE ? "each sample" : "the frame"));
  }

  private void average() {
    Average average = loop.average();
    int readings = average.readings();
    say(
        switch (average.overTime()) {
          case NONE -> "It judges %s of each reading.";
          case BLOCK -> "It judges the average of %s after each " + readings + " readings.";
          case MOVING -> "It judges the average of %s over the last " + readings + " readings.";
          case EXPONENTIAL ->
              "It judges a running average of %s, into which each reading goes with a weight of 1/"
                  + readings
                  + ".";
          case MEDIAN -> "It judges the median of %s over the last " + readings + " readings.";
        },
        subject(average));
  }

  private String subject(Average average) {
    if (average.frame() == Average.OfFrame.SHARE_ABOVE) {
      return "the share of samples above " + inUnit(average.level().orElseThrow());
    }
    return loop.sensor().frame().samples() == 1
        ? "the value"
        : "the " + lower(average.frame()) + " of the samples";
  }

  private void alarm() {
    Alarm alarm = loop.alarm();
    say(
        "The alarm goes on when that is %s%s, and off when it is back by %s%s.",
        limit(alarm.limit()),
        inARow(alarm.tripAfter()),
        judged(alarm.hysteresis()),
        inARow(alarm.clearAfter()));
    if (alarm.latch()) {
      say("Once on, it stays on until the mute button is pressed.");
    }
  }

  private String limit(Alarm.Limit limit) {
    if (limit instanceof Alarm.Limit.Above above) {
      return "above " + setting(above.setting());
    }
    if (limit instanceof Alarm.Limit.Below below) {
      return "below " + setting(below.setting());
    }
    Alarm.Limit.Outside outside = (Alarm.Limit.Outside) limit;
    return "below " + judged(outside.low()) + " or above " + judged(outside.high());
  }

  private String setting(Alarm.Setting setting) {
    if (setting instanceof Alarm.Setting.Knob knob) {
      return "what the knob says (%s at its lowest voltage, %s at the supply)"
          .formatted(judged(knob.from()), judged(knob.to()));
    }
    return judged(((Alarm.Setting.Fixed) setting).threshold());
  }

  private void faults() {
    Alarm alarm = loop.alarm();
    say(
        "After more than %s in a row the alarm %s.",
        counted(alarm.faultsAllowed(), "failed reading"),
        switch (alarm.onSensorFault()) {
          case ALARM -> "goes on";
          case HOLD -> "stays as it is";
          case QUIET -> "goes off";
        });
    if (loop.sensor().frozenAfter() > 0) {
      say(
          "%s without any change count as a failure too.",
          counted(loop.sensor().frozenAfter(), "reading"));
    }
  }

  private void outputs() {
    Outputs outputs = loop.outputs();
    outputs
        .lamp()
        .ifPresent(
            lamp ->
                say(
                    lamp.blinkMs() == 0
                        ? "The alarm lights the lamp."
                        : "The alarm blinks the lamp, " + lamp.blinkMs() + " ms on and off."));
    outputs.sounder().ifPresent(this::sounder);
    outputs.relay().ifPresent(relay -> say("The alarm switches the relay."));
  }

  private void sounder(Outputs.Sounder sounder) {
    String tone = sounder.toneHz() == 0 ? "" : " with " + sounder.toneHz() + " Hz";
    String pattern =
        sounder.offMs() == 0
            ? ", without a pause"
            : ", " + sounder.onMs() + " ms on and " + sounder.offMs() + " ms off";
    say("The alarm sounds the sounder%s%s.", tone, pattern);
  }

  private void extras() {
    Extras extras = loop.extras();
    extras
        .report()
        .ifPresent(
            report ->
                say(
                    "Each reading sends one line with the %s over the serial port, %d baud.",
                    lower(report.send()), report.baud()));
    if (extras.settings()) {
      say(
          "The threshold is kept %s with a check byte; `settings_keep`, called from `yours/`,"
              + " changes it. Switch brown-out detection on, or a falling supply can spoil what is"
              + " kept.",
          inFlash ? "at the end of the flash" : "in EEPROM");
    }
    extras
        .watchdogMs()
        .ifPresent(
            ms ->
                say(
                    "The watchdog restarts a part that makes no progress (%d ms are asked for).",
                    ms));
    if (extras.sleep() != Extras.Sleep.NONE) {
      say("Between readings the part sleeps (%s).", lower(extras.sleep()));
    }
    if (extras.muteButton()) {
      say("A button mutes the alarm.");
    }
  }

  private String judged(BigDecimal value) {
    boolean share = loop.average().frame() == Average.OfFrame.SHARE_ABOVE;
    return share ? value.toPlainString() + " %" : inUnit(value);
  }

  private String inUnit(BigDecimal value) {
    return (value.toPlainString() + ' ' + loop.sensor().scale().unit()).strip();
  }

  private static String inARow(int readings) {
    return readings == 1 ? "" : " in " + readings + " readings in a row";
  }

  private static String counted(int count, String thing) {
    return count + " " + (count == 1 ? thing : thing + 's');
  }

  private static String lower(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT);
  }

  private void say(String sentence, Object... values) {
    sentences.add(String.format(Locale.ROOT, sentence, values));
  }
}
