package dev.ullage.report;

import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.loop.Sensor;
import java.math.BigDecimal;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A loop in a few short lines, by what each is about. */
final class LoopFacts {
  private final Loop loop;

  private LoopFacts(Loop loop) {
    this.loop = loop;
  }

  static Map<String, String> of(Loop loop) {
    LoopFacts facts = new LoopFacts(loop);
    Map<String, String> lines = new LinkedHashMap<>();
    lines.put("Sensor", facts.sensor());
    lines.put("Average", facts.average());
    lines.put("Alarm", facts.alarm());
    lines.put("Drives", facts.outputs());
    lines.put("Kept free", facts.margin());
    if (loop.bring().flashBytes() + loop.bring().ramBytes() + loop.bring().stackBytes() > 0) {
      lines.put("Your own code", facts.bring());
    }
    return lines;
  }

  private String sensor() {
    Sensor sensor = loop.sensor();
    int samples = sensor.frame().samples();
    return "address 0x%02X, %s of %s every %s"
        .formatted(
            sensor.address(),
            counted(samples, "sample"),
            counted(sensor.frame().sampleBytes(), "byte"),
            duration(loop.periodMs()));
  }

  private static String counted(int count, String noun) {
    return count == 1 ? "1 " + noun : count + " " + noun + "s";
  }

  private static String duration(int ms) {
    return ms < 1000
        ? ms + "\u00a0ms"
        : BigDecimal.valueOf(ms, 3).stripTrailingZeros().toPlainString() + "\u00a0s";
  }

  private String average() {
    Average average = loop.average();
    String overTime =
        average.overTime() == Average.OverTime.NONE
            ? "each reading by itself"
            : Style.word(average.overTime()) + " over " + average.readings() + " readings";
    return loop.sensor().frame().samples() == 1
        ? overTime
        : Style.word(average.frame()).replace('_', ' ') + " of the frame, " + overTime;
  }

  private String alarm() {
    Values unit = Values.judged(loop);
    String hysteresis = ", hysteresis " + with(loop.alarm().hysteresis(), unit);
    Alarm.Limit limit = loop.alarm().limit();
    if (limit instanceof Alarm.Limit.Above above) {
      return "above " + setting(above.setting(), unit) + hysteresis;
    }
    if (limit instanceof Alarm.Limit.Below below) {
      return "below " + setting(below.setting(), unit) + hysteresis;
    }
    Alarm.Limit.Outside outside = (Alarm.Limit.Outside) limit;
    return "outside " + range(outside.low(), outside.high(), unit) + hysteresis;
  }

  private static String setting(Alarm.Setting setting, Values unit) {
    return setting instanceof Alarm.Setting.Knob knob
        ? "a knob's " + range(knob.from(), knob.to(), unit)
        : with(((Alarm.Setting.Fixed) setting).threshold(), unit);
  }

  private static String range(BigDecimal low, BigDecimal high, Values unit) {
    return plain(low) + " to " + with(high, unit);
  }

  private static String with(BigDecimal value, Values unit) {
    return (plain(value) + " " + unit.unit()).strip();
  }

  private static String plain(BigDecimal value) {
    return value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString();
  }

  private String outputs() {
    Outputs outputs = loop.outputs();
    return Stream.of(
            outputs.lamp().map(any -> "lamp").stream(),
            outputs.sounder().map(any -> "sounder").stream(),
            outputs.relay().map(any -> "relay").stream(),
            loop.extras().report().map(any -> "report over the serial port").stream())
        .flatMap(each -> each)
        .collect(Collectors.joining(", "));
  }

  private String margin() {
    return loop.margin().flashPercent() + " % of the flash, " + loop.margin().ramBytes() + " B RAM";
  }

  private String bring() {
    return "%d B flash, %d B RAM, %d B stack"
        .formatted(loop.bring().flashBytes(), loop.bring().ramBytes(), loop.bring().stackBytes());
  }
}
