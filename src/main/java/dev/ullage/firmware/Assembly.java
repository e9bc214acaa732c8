package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Average;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.loop.Sensor;
import dev.ullage.target.Clock;
import dev.ullage.target.Pin;
import dev.ullage.target.Target;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * Puts a plan together from modules: for each the traits that decide its code, the constants that
 * it uses, and the buffers that it owns. One method for each module, in link order.
 */
final class Assembly {
  private static final String YES = "yes";
  private static final String NO = "no";
  private static final double STUCK_MS = 30;
  private static final int STRETCH_CYCLES = 8;
  private static final int WIDEST_ENABLE = 0xFFFF;

  private final Loop loop;
  private final Target target;
  private final Clocking clock;
  private final BusPlan bus;
  private final Pace pace;
  private final Optional<Tone> tone;
  private final Optional<Serial> serial;
  private final Arithmetic arithmetic;
  private final Map<Role, Pin> pins;
  private final Map<String, String> routeWords;
  private final boolean polls;
  private final double busyMs;
  private final List<TypeName> types = new ArrayList<>();
  private final List<Constant> constants = new ArrayList<>();
  private final List<Module> modules = new ArrayList<>();
  private final List<Buffer> buffers = new ArrayList<>();

  Assembly(
      Loop loop,
      Target target,
      Clocking clock,
      BusPlan bus,
      Pace pace,
      Optional<Tone> tone,
      Optional<Serial> serial,
      Arithmetic arithmetic,
      Map<Role, Pin> pins,
      Map<String, String> routeWords,
      double busyMs) {
    this.loop = loop;
    this.target = target;
    this.clock = clock;
    this.bus = bus;
    this.pace = pace;
    this.tone = tone;
    this.serial = serial;
    this.arithmetic = arithmetic;
    this.pins = pins;
    this.routeWords = routeWords;
    this.busyMs = busyMs;
    this.polls = !counted() && pace.isHurried(busyMs);
    main();
    ask();
    sample();
    reading();
    check();
    frozen();
    average();
    judge();
    alarm();
    knob();
    outputs();
    report();
    settings();
    pace();
    bus();
    begin();
    converter();
    serial();
    numberedPins();
  }

  List<TypeName> types() {
    return types;
  }

  List<Constant> constants() {
    return constants;
  }

  List<Module> modules() {
    return modules;
  }

  List<Buffer> buffers() {
    return buffers;
  }

  // The portable part.

  private void main() {
    SortedMap<String, String> traits = new TreeMap<>();
    boolean averages = loop.average().overTime() != Average.OverTime.NONE;
    traits.put("value", String.valueOf(arithmetic.value().bits()));
    traits.put("widen", averages ? "none" : widening(arithmetic.value(), arithmetic.sum()));
    traits.put(
        "average",
        switch (loop.average().overTime()) {
          case NONE -> "none";
          case BLOCK -> "block";
          case MOVING, EXPONENTIAL, MEDIAN -> "each";
        });
    // Of a block the sum comes from memory, which may take an instruction more with a sign.
    boolean block = loop.average().overTime() == Average.OverTime.BLOCK;
    traits.put(
        "sum", block ? arithmetic.sum().toString() : String.valueOf(arithmetic.sum().bits()));
    traits.put("acts", yes(loop.alarm().onSensorFault() != Alarm.OnFault.HOLD));
    traits.put("forgives", yes(forgives()));
    traits.put("frozen", yes(loop.sensor().frozenAfter() > 0));
    traits.put("report", reportTrait());
    traits.put("settings", yes(loop.extras().settings()));
    portable("main", traits);
  }

  /** How a number grows into a wider type: by its sign, with zeros, or not at all. */
  private static String widening(Whole from, Whole to) {
    return from.bits() == to.bits() ? "none" : from.signed() ? "sign" : "zeros";
  }

  private String faultTrait() {
    return loop.alarm().onSensorFault().name().toLowerCase(Locale.ROOT);
  }

  private boolean forgives() {
    return loop.alarm().onSensorFault() != Alarm.OnFault.HOLD && loop.alarm().faultsAllowed() > 0;
  }

  private String reportTrait() {
    return loop.extras()
        .report()
        .map(report -> report.send().name().toLowerCase(Locale.ROOT))
        .orElse("none");
  }

  private void ask() {
    Sensor sensor = loop.sensor();
    define("SENSOR_ADDRESS", hex(sensor.address()), "sensor.address, 7-bit");
    SortedMap<String, String> traits = new TreeMap<>();
    boolean asks = !sensor.ask().isEmpty();
    traits.put("ask", yes(asks));
    traits.put("between", asks ? (sensor.restart() ? "restart" : "stop") : "none");
    traits.put("wait", yes(asks && sensor.waitMs() > 0));
    traits.put("skip", yes(sensor.frame().skipBytes() > 0));
    traits.put("check", yes(frameCheck()));
    traits.put("bus", bus.driver() == BusDriver.BUFFERED ? "buffered" : "stream");
    for (int i = 0; i < sensor.ask().size(); i++) {
      define("SENSOR_ASK_" + i, hex(sensor.ask().get(i)), "sensor.ask, byte " + (i + 1));
    }
    if (asks && sensor.waitMs() > 0) {
      long ticks = waitTicks();
      define(
          "SENSOR_WAIT_TICKS", ticks + "u", "sensor.wait_ms " + sensor.waitMs() + ", rounded up");
      traits.put("wait", ticks > 255 ? "long" : YES);
    }
    if (sensor.frame().skipBytes() > 0) {
      define("FRAME_SKIP", sensor.frame().skipBytes() + "u", "sensor.frame.skip_bytes");
    }
    if (bus.driver() == BusDriver.BUFFERED) {
      define("FRAME_BYTES", sensor.frame().bytes() + "u", "bytes of a frame on the bus");
    }
    modules.add(
        new Module(
            "ask",
            Module.Scope.PORTABLE,
            traits,
            new TreeMap<>(),
            asks ? new TreeMap<>(Map.of("ask", sensor.ask().size())) : new TreeMap<>()));
  }

  /** With those that have passed before the wait begins: they are counted, but not waited for. */
  private long waitTicks() {
    double askMs = bus.ms(loop.sensor().ask().size() + 1);
    return pace.ticksAtLeast(loop.sensor().waitMs()) + (long) (askMs / pace.exactTickMs());
  }

  private boolean frameCheck() {
    return loop.sensor().frame().check().map(c -> c.over() == Frame.Crc8.Over.FRAME).orElse(false);
  }

  private void sample() {
    Frame frame = loop.sensor().frame();
    SortedMap<String, String> traits = new TreeMap<>();
    traits.put("bytes", String.valueOf(frame.sampleBytes()));
    traits.put(
        "order",
        frame.sampleBytes() == 1 ? "none" : frame.byteOrder().name().toLowerCase(Locale.ROOT));
    traits.put("raw", arithmetic.raw().toString());
    traits.put("shift", yes(frame.shiftRight() > 0));
    traits.put("bits", bitsTrait(frame));
    traits.put(
        "check", frame.check().map(c -> c.over().name().toLowerCase(Locale.ROOT)).orElse("none"));
    if (frame.shiftRight() > 0) {
      define("SAMPLE_SHIFT", frame.shiftRight() + "u", "sensor.frame.shift_right");
    }
    if (!traits.get("bits").equals("all")) {
      define("SAMPLE_MASK", mask(frame.rawBits(), 1), "sensor.frame.bits " + frame.rawBits());
      define("SAMPLE_SIGN", mask(frame.rawBits(), 2), "the highest of them");
    }
    typedef("raw_t", arithmetic.raw(), "one sample, " + frame.rawBits() + " bits");
    portable("sample", traits);
  }

  /** The ones of so many bits, or with {@code divisor} 2 the highest of them alone. */
  private String mask(int bits, int divisor) {
    long ones = (1L << bits) - 1;
    long value = divisor == 1 ? ones : (ones + 1) / 2;
    return "0x"
        + Long.toHexString(value).toUpperCase(Locale.ROOT)
        + (arithmetic.raw().bits() == 32 ? "UL" : "u");
  }

  /** How many of the sample's type's bits count; it is the byte of the highest that costs. */
  private String bitsTrait(Frame frame) {
    int bits = frame.rawBits();
    if (frame.bits() == 0 || bits == arithmetic.raw().bits()) {
      return "all";
    }
    // For 14 and 23 bits avr-gcc misses the short way that it takes for all others.
    String kind = bits == 14 || bits == 23 ? "long" : bits % 8 == 0 ? "whole" : "part";
    return kind + (bits + 7) / 8;
  }

  private void reading() {
    Frame frame = loop.sensor().frame();
    SortedMap<String, String> traits = new TreeMap<>();
    Average.OfFrame reduce = loop.average().frame();
    boolean many = frame.samples() > 1;
    boolean share = reduce == Average.OfFrame.SHARE_ABOVE;
    traits.put("samples", many ? "many" : "one");
    traits.put("reduce", many || share ? reduction(reduce) : "none");
    traits.put("raw", arithmetic.raw().toString());
    traits.put("value", arithmetic.value().toString());
    traits.put("check", yes(frameCheck()));
    traits.put("keep", yes(keepsFrame()));
    traits.put("poll", yes(polls));
    typedef(
        "value_t",
        arithmetic.value(),
        many && reduce == Average.OfFrame.MEAN
            ? "sum of the " + frame.samples() + " samples of a frame"
            : "one frame");
    if (many) {
      define("FRAME_SAMPLES", frame.samples() + "u", "sensor.frame.samples");
    }
    arithmetic
        .level()
        .ifPresent(
            level -> {
              traits.put("counts", level.above() ? "above" : "below");
              define(
                  "FRAME_LEVEL",
                  arithmetic.raw().literal(level.limit()),
                  "average.level, in raw counts");
            });
    if (keepsFrame()) {
      int bytes = frame.samples() * arithmetic.raw().bytes();
      buffers.add(new Buffer("frame", "reading", "reading_frame", bytes));
    }
    portable("reading", traits);
  }

  /** In raw counts; where the scale falls, the largest value is the smallest count. */
  private String reduction(Average.OfFrame reduce) {
    boolean falls = loop.sensor().scale().gain().signum() < 0;
    Average.OfFrame ofCounts =
        switch (reduce) {
          case MAX -> falls ? Average.OfFrame.MIN : reduce;
          case MIN -> falls ? Average.OfFrame.MAX : reduce;
          case MEAN, MEDIAN, SHARE_ABOVE -> reduce;
        };
    return ofCounts.name().toLowerCase(Locale.ROOT);
  }

  private boolean keepsFrame() {
    return loop.extras()
        .report()
        .map(report -> report.send() == Extras.Report.Send.FRAME)
        .orElse(false);
  }

  private void check() {
    loop.sensor()
        .frame()
        .check()
        .ifPresent(
            crc -> {
              define("CHECK_POLY", hex(crc.poly()), "sensor.frame.check, CRC-8 polynomial");
              define("CHECK_INIT", hex(crc.init()), "sensor.frame.check, start value");
              portable("check", new TreeMap<>());
            });
  }

  private void frozen() {
    if (loop.sensor().frozenAfter() > 0) {
      define(
          "FROZEN_AFTER",
          loop.sensor().frozenAfter() + "u",
          "sensor.frozen_after, readings without any change");
      portable("frozen", new TreeMap<>(Map.of("value", arithmetic.value().toString())));
    }
  }

  private void average() {
    Average average = loop.average();
    typedef("sum_t", arithmetic.sum(), "what is judged" + sumWords(average));
    if (average.overTime() == Average.OverTime.NONE) {
      return;
    }
    int readings = average.readings();
    SortedMap<String, String> traits = new TreeMap<>();
    traits.put("kind", average.overTime().name().toLowerCase(Locale.ROOT));
    traits.put("value", arithmetic.value().toString());
    traits.put("sum", arithmetic.sum().toString());
    define("AVERAGE_READINGS", readings + "u", "average.readings");
    if (average.overTime() == Average.OverTime.EXPONENTIAL) {
      boolean power = Integer.bitCount(readings) == 1;
      traits.put("divide", power ? "shift" : "division");
      define("AVERAGE_HALF", readings / 2 + "u", "half of average.readings, to round");
      if (power) {
        define(
            "AVERAGE_SHIFT",
            Integer.numberOfTrailingZeros(readings) + "u",
            "average.readings is a power of two");
      }
    }
    if (average.overTime() == Average.OverTime.MOVING
        || average.overTime() == Average.OverTime.MEDIAN) {
      buffers.add(
          new Buffer(
              "averaging window",
              "average",
              "average_window",
              readings * arithmetic.value().bytes()));
    }
    portable("average", traits);
  }

  private static String sumWords(Average average) {
    return switch (average.overTime()) {
      case NONE -> ": one frame";
      case MEDIAN -> ": the middle of " + average.readings() + " frames";
      case BLOCK, MOVING -> ": the sum of " + average.readings() + " frames";
      case EXPONENTIAL -> ": " + average.readings() + " times the smoothed frame";
    };
  }

  private void judge() {
    Alarm alarm = loop.alarm();
    SortedMap<String, String> traits = new TreeMap<>();
    traits.put("sum", arithmetic.sum().toString());
    traits.put("count", yes(countsReadings()));
    if (countsReadings()) {
      define("ALARM_TRIP_AFTER", alarm.tripAfter() + "u", "alarm.trip_after");
      define("ALARM_CLEAR_AFTER", alarm.clearAfter() + "u", "alarm.clear_after");
    }
    judgeLimits(arithmetic.limits(), traits);
    portable("judge", traits);
  }

  private void judgeLimits(Arithmetic.Limits limits, SortedMap<String, String> traits) {
    if (limits instanceof Arithmetic.Limits.Above above) {
      oneSided("above", above.trip(), above.clear(), traits);
    } else if (limits instanceof Arithmetic.Limits.Below below) {
      oneSided("below", below.trip(), below.clear(), traits);
    } else if (limits instanceof Arithmetic.Limits.Outside outside) {
      traits.put("when", "outside");
      traits.put("limit", "fixed");
      boolean gap = loop.alarm().hysteresis().signum() != 0;
      traits.put("hysteresis", yes(gap));
      limit("ALARM_TRIP_LOW", outside.tripLow(), "alarm.low: trips below this");
      limit("ALARM_TRIP_HIGH", outside.tripHigh(), "alarm.high: trips above this");
      if (gap) {
        limit("ALARM_CLEAR_LOW", outside.clearLow(), "alarm.low moved in by the hysteresis");
        limit("ALARM_CLEAR_HIGH", outside.clearHigh(), "alarm.high moved in by the hysteresis");
      }
    } else {
      Arithmetic.Limits.Turned turned = (Arithmetic.Limits.Turned) limits;
      traits.put("when", turned.above() ? "above" : "below");
      traits.put("limit", "knob");
      traits.put("hysteresis", yes(turned.hysteresis() != 0));
      if (turned.hysteresis() != 0) {
        limit("ALARM_HYSTERESIS", turned.hysteresis(), "alarm.hysteresis, in counts of sum_t");
      }
    }
  }

  private void oneSided(String when, long trip, long clear, SortedMap<String, String> traits) {
    traits.put("when", when);
    boolean kept = loop.extras().settings();
    traits.put("limit", kept ? "settings" : "fixed");
    traits.put("hysteresis", yes(trip != clear));
    limit("ALARM_TRIP", trip, "alarm.threshold, in counts of sum_t: trips " + when + " this");
    if (trip != clear && kept) {
      limit("ALARM_HYSTERESIS", Math.abs(trip - clear), "alarm.hysteresis, in counts of sum_t");
    } else if (trip != clear) {
      limit("ALARM_CLEAR", clear, "alarm.threshold moved back by alarm.hysteresis");
    }
  }

  private boolean countsReadings() {
    return loop.alarm().tripAfter() > 1 || loop.alarm().clearAfter() > 1;
  }

  private void alarm() {
    SortedMap<String, String> traits = new TreeMap<>();
    traits.put("latch", yes(loop.alarm().latch()));
    traits.put("mute", yes(loop.extras().muteButton()));
    traits.put("fault", faultTrait());
    traits.put("forgives", yes(forgives()));
    traits.put("shows", yes(hasOutputs()));
    traits.put("count", yes(countsReadings()));
    if (forgives()) {
      define("ALARM_FAULTS_ALLOWED", loop.alarm().faultsAllowed() + "u", "alarm.faults_allowed");
    }
    portable("alarm", traits);
  }

  private boolean hasOutputs() {
    Outputs outputs = loop.outputs();
    return outputs.lamp().isPresent()
        || outputs.sounder().isPresent()
        || outputs.relay().isPresent();
  }

  private void knob() {
    if (arithmetic.limits() instanceof Arithmetic.Limits.Turned turned) {
      SortedMap<String, String> traits = new TreeMap<>();
      traits.put("sum", arithmetic.sum().toString());
      traits.put("rising", yes(turned.rising()));
      boolean wide = turned.multiplier() > Short.MAX_VALUE;
      traits.put("wide", yes(wide));
      limit("KNOB_LOW", turned.low(), "alarm.knob.from, in counts of sum_t");
      define(
          "KNOB_MULTIPLIER",
          new Whole(false, wide ? 32 : 16).literal(turned.multiplier()),
          "takes the converter's 1023 to alarm.knob.to");
      portable("knob", traits);
    }
  }

  private void report() {
    if (loop.extras().report().isEmpty()) {
      return;
    }
    boolean frame = keepsFrame();
    Ratio gain = Ratio.of(loop.sensor().scale().gain());
    Ratio offset = Ratio.of(loop.sensor().scale().offset());
    Frame shape = loop.sensor().frame();
    Arithmetic.Fold fold = arithmetic.fold();
    ReportScale scale =
        frame
            ? ReportScale.of(
                gain,
                offset,
                BigInteger.valueOf(shape.rawMin()),
                BigInteger.valueOf(shape.rawMax()),
                gain)
            : ReportScale.of(fold.gain(), fold.offset(), fold.lowest(), fold.highest(), gain);
    SortedMap<String, String> traits = new TreeMap<>();
    traits.put("send", frame ? "frame" : "average");
    traits.put("from", (frame ? arithmetic.raw() : arithmetic.sum()).toString());
    traits.put("samples", frame && shape.samples() == 1 ? "one" : frame ? "many" : "none");
    boolean scales = scale.multiplier() != 1 || scale.addend() != 0 || scale.shift() > 0;
    traits.put("scale", yes(scales));
    traits.put("point", yes(scale.decimals() > 0));
    Whole wide = new Whole(true, 32);
    if (scales) {
      define("REPORT_MULTIPLIER", wide.literal(scale.multiplier()), reportWords(scale));
      define(
          "REPORT_ADDEND", wide.literal(scale.addend()), "sensor.scale.offset, and half to round");
      define("REPORT_SHIFT", scale.shift() + "u", "bits of fraction in the multiplier");
    }
    if (scale.decimals() > 0) {
      define("REPORT_DECIMALS", scale.decimals() + "u", "digits after the point");
    }
    traits.put("poll", yes(polls));
    portable("report", traits);
  }

  private static String reportWords(ReportScale scale) {
    return "counts to units of 10^-" + scale.decimals() + ", times 2^" + scale.shift();
  }

  // The port.

  private void outputs() {
    if (!hasOutputs()) {
      return;
    }
    SortedMap<String, String> traits = new TreeMap<>();
    SortedMap<String, String> forms = new TreeMap<>();
    Outputs outputs = loop.outputs();
    outputs
        .lamp()
        .ifPresent(
            lamp -> {
              traits.put("lamp", lamp.blinkMs() > 0 ? "blink" : "steady");
              forms.put("lamp_on", word(lamp.active()));
              traits.put("lamp_pin", reach(Role.LAMP));
              if (lamp.blinkMs() > 0) {
                define("LAMP_TICKS", ticks(lamp.blinkMs()), "outputs.lamp.blink_ms, in ticks");
              }
            });
    outputs.sounder().ifPresent(sounder -> sounderTraits(sounder, traits));
    outputs
        .relay()
        .ifPresent(
            relay -> {
              traits.put("relay", YES);
              forms.put("relay_on", word(relay.active()));
              traits.put("relay_pin", reach(Role.RELAY));
            });
    if (loop.extras().muteButton()) {
      traits.put("mute", reach(Role.MUTE));
    }
    traits.putIfAbsent("lamp", "none");
    traits.putIfAbsent("sounder", "none");
    traits.putIfAbsent("relay", NO);
    traits.putIfAbsent("mute", "none");
    traits.put("steps", yes(steps()));
    port("outputs", traits, forms);
  }

  private void sounderTraits(Outputs.Sounder sounder, SortedMap<String, String> traits) {
    traits.put("sounder", tone.isPresent() ? "tone" : "level");
    traits.put("pattern", yes(sounder.hasPattern()));
    traits.put("sounder_pin", tone.isPresent() ? tone.get().timer().name() : reach(Role.SOUNDER));
    if (tone.isPresent() && pace.shared()) {
      traits.put("sounder_pin", traits.get("sounder_pin") + "-shared");
    }
    tone.ifPresent(
        t -> {
          if (!pace.shared()) {
            define("TONE_TOP", t.top() + "u", toneWords(sounder, t));
            define(
                "TONE_CLOCK_SELECT",
                '(' + t.timer().clockSelect().get(t.prescaler()) + ')',
                "clock divided by " + t.prescaler());
          }
          routeWords("TONE_");
        });
    if (sounder.hasPattern()) {
      define("SOUNDER_ON_TICKS", ticks(sounder.onMs()), "outputs.sounder.on_ms, in ticks");
      define("SOUNDER_OFF_TICKS", ticks(sounder.offMs()), "outputs.sounder.off_ms, in ticks");
    }
  }

  private String toneWords(Outputs.Sounder sounder, Tone t) {
    return "outputs.sounder.tone_hz "
        + sounder.toneHz()
        + ": "
        + Decimal.of(t.hz(), 1)
        + " Hz from "
        + Clocking.megahertz(clock.hz())
        + " / "
        + t.prescaler()
        + " / "
        + t.timer().toggle().orElseThrow().rounds()
        + " / (top + 1)";
  }

  private String ticks(int ms) {
    return pace.ticks(ms) + "u";
  }

  private boolean steps() {
    return loop.outputs().lamp().filter(lamp -> lamp.blinkMs() > 0).isPresent()
        || loop.outputs().sounder().filter(Outputs.Sounder::hasPattern).isPresent()
        || loop.extras().muteButton() && hasOutputs();
  }

  private void settings() {
    if (loop.extras().settings()) {
      SortedMap<String, String> traits = new TreeMap<>();
      traits.put("sum", arithmetic.sum().toString());
      port("settings", traits);
    }
  }

  private boolean counted() {
    return pace.shared() || loop.extras().sleep() == Extras.Sleep.IDLE;
  }

  private boolean waits() {
    return loop.sensor().waitMs() > 0 && !loop.sensor().ask().isEmpty();
  }

  private void pace() {
    SortedMap<String, String> traits = new TreeMap<>();
    traits.put("timer", pace.timer().name());
    traits.put("tick", counted() ? "counted" : "polled");
    traits.put("per_tick", pace.countsPerTick() > 1 ? "many" : "one");
    traits.put("shared", yes(pace.shared()));
    traits.put("steps", yes(steps()));
    traits.put("left", waits() || polls ? "kept" : "local");
    traits.put("sleep", loop.extras().sleep().name().toLowerCase(Locale.ROOT));
    traits.put("watchdog", yes(loop.extras().watchdogMs().isPresent()));
    long period = pace.ticks(loop.periodMs());
    Whole width = Whole.holding(0, period, 8);
    traits.put("ticks", width.toString());
    typedef("period_t", width, "ticks of a period");
    define("PERIOD_TICKS", width.literal(period), "period_ms " + loop.periodMs() + ", in ticks");
    define("PACE_TOP", pace.top() + "u", paceWords());
    define(
        "PACE_CLOCK_SELECT",
        "(" + pace.timer().clockSelect().get(pace.prescaler()) + ")",
        "clock divided by " + pace.prescaler());
    if (pace.countsPerTick() > 1) {
      define("PACE_COUNTS", pace.countsPerTick() + "u", "matches of the timer in a tick");
    }
    if (loop.extras().sleep() == Extras.Sleep.DEEP) {
      deepSleep(traits);
    }
    port("pace", traits);
  }

  private void watchdog(int ms) {
    Guard guard = Guard.of(target.family().watchdog(), ms);
    define(
        guard.constants(),
        "extras.watchdog_ms " + ms + ": restarts after about " + guard.realMs() + " ms");
  }

  private void deepSleep(SortedMap<String, String> traits) {
    List<String> lost = target.family().sleep().lostClocks();
    if (!lost.isEmpty()) {
      String way = clock.setting().map(Clock.Setting::way).orElse(NO);
      traits.put("clock", lost.contains(way) ? way : NO);
    }
    double waitMs = waits() ? waitTicks() * pace.exactTickMs() : 0;
    OptionalInt guardMs =
        loop.extras().watchdogMs().stream()
            .map(ms -> (int) Guard.of(target.family().watchdog(), ms).realMs())
            .findFirst();
    Naps naps = Naps.of(target.family(), loop.periodMs(), busyMs + waitMs, guardMs);
    define(naps.constants(), "naps of about " + Decimal.of(naps.ms(), 0) + " ms");
    define("NAP_COUNT", naps.count() + "u", "naps in a period");
  }

  private String paceWords() {
    return Decimal.of(pace.exactTickMs(), 3)
        + " ms a tick of "
        + pace.timer().name()
        + ", for "
        + pace.tickMs()
        + " ms";
  }

  private void bus() {
    SortedMap<String, String> traits = new TreeMap<>();
    long stuck = Math.max(1, Math.round(STUCK_MS * clock.hz() / 1000 / STRETCH_CYCLES));
    // An int of the smallest parts has 16 bits.
    long patience =
        target.stackPointerBits() < Integer.SIZE ? Math.min(stuck, WIDEST_ENABLE) : stuck;
    define(
        "BUS_PATIENCE", patience + "u", "turns of a waiting loop: about 30 ms, then it is a fault");
    String name = bus.driver().name().toLowerCase(Locale.ROOT);
    bus.constants()
        .forEach(
            (constant, value) -> {
              boolean half = constant.equals("BUS_HALF_BIT");
              if (!half || bus.delay() != BusPlan.Delay.NONE) {
                String why = half ? "turns of the delay loop in half a bit" : busWords();
                define(constant, literal(value), why);
              }
            });
    routeWords("BUS_");
    if (bus.driver() == BusDriver.BITBANG) {
      traits.put("delay", bus.delay().trait());
      traits.put("sda", reach(Role.SDA));
      traits.put("scl", reach(Role.SCL));
    }
    if (bus.driver() == BusDriver.BUFFERED) {
      define("BUS_SEND_BYTES", loop.buffer().sendBytes() + "u", "buffer.send_bytes");
      define("BUS_RECEIVE_BYTES", loop.buffer().receiveBytes() + "u", "buffer.receive_bytes");
      buffers.add(new Buffer("bus send", "bus_buffered", "bus_sent", loop.buffer().sendBytes()));
      buffers.add(
          new Buffer("bus receive", "bus_buffered", "bus_received", loop.buffer().receiveBytes()));
    }
    port("bus_" + name, traits);
  }

  private String busWords() {
    return "sensor.speed_hz "
        + loop.sensor().speedHz()
        + ": "
        + Decimal.of(bus.hz() / 1000, 1)
        + " kHz from "
        + Clocking.megahertz(clock.hz());
  }

  private void begin() {
    SortedMap<String, String> traits = new TreeMap<>();
    SortedMap<String, Integer> writes = new TreeMap<>();
    for (Role role : pins.keySet()) {
      int needed = startWrites(role);
      if (needed > 0 && numbered(role)) {
        // A compiler keeps what two calls have in common, so it counts which calls there are.
        traits.put(role.name().toLowerCase(Locale.ROOT), needed > 1 ? "low" : YES);
      } else if (needed > 0) {
        writes.merge(reach(role), needed, Integer::sum);
      }
    }
    writes.forEach((reach, count) -> traits.put(reach, String.valueOf(count)));
    traits.put("clock", clock.setting().map(Clock.Setting::way).orElse(NO));
    clock
        .setting()
        .ifPresent(
            setting -> define("CLOCK_SETTING", setting.number(), "board.clock_hz " + clock.hz()));
    traits.put("watchdog", yes(loop.extras().watchdogMs().isPresent()));
    loop.extras().watchdogMs().ifPresent(this::watchdog);
    port("begin", traits);
  }

  /** Writes that make a pin ready: direction, and a level or a pull-up where needed. */
  private int startWrites(Role role) {
    return switch (role) {
      case LAMP, RELAY, SOUNDER, MUTE -> activeLow(role) ? 2 : 1;
      case SDA, SCL, KNOB, TRANSMIT -> 0;
    };
  }

  private void converter() {
    if (loop.alarm().limit().knob().isEmpty()) {
      return;
    }
    var converter = target.family().converter().orElseThrow();
    int divider =
        converter
            .divider(clock.hz())
            .orElseThrow(() -> new Lacking("clock", "the converter cannot run from this clock"));
    define(
        "KNOB_CHANNEL",
        pins.get(Role.KNOB).converterChannel().orElseThrow() + "u",
        "input of " + pins.get(Role.KNOB).name());
    define(
        "KNOB_PRESCALE",
        "(" + converter.prescale().get(divider) + ")",
        "converter clock divided by " + divider);
    port("converter", new TreeMap<>());
  }

  private void serial() {
    serial.ifPresent(
        port -> {
          SortedMap<String, String> traits = new TreeMap<>();
          boolean hardware = port.hardware().isPresent();
          traits.put("kind", hardware ? "hardware" : "software");
          traits.put("flush", yes(hardware && loop.extras().sleep() == Extras.Sleep.DEEP));
          traits.put("guard", yes(!hardware && counted()));
          define(
              port.constants(),
              "extras.report.baud "
                  + loop.extras().report().orElseThrow().baud()
                  + ", off by "
                  + Decimal.of(100 * port.error(), 2)
                  + " %");
          routeWords("SERIAL_");
          port("serial", traits);
        });
  }

  /** On parts whose pins are handled by number, the functions that do so. */
  private void numberedPins() {
    boolean any = false;
    for (Map.Entry<Role, Pin> pin : pins.entrySet()) {
      if (numbered(pin.getKey())) {
        any = true;
        define("PIN_" + pin.getKey(), pin.getValue().number() + "u", pin.getValue().name());
      }
    }
    if (any) {
      port("pins", new TreeMap<>());
    }
  }

  /** Where a pin goes by number, the level that switches its load on is in the code. */
  private boolean activeLow(Role role) {
    return loop.outputs().active(role) == Outputs.Active.LOW;
  }

  private boolean numbered(Role role) {
    return pins.get(role).reach() == Pin.Reach.NUMBER;
  }

  private String reach(Role role) {
    String reach = pins.get(role).reach().name().toLowerCase(Locale.ROOT);
    return numbered(role) && activeLow(role) ? reach + "-low" : reach;
  }

  private static String word(Outputs.Active active) {
    return active.name().toLowerCase(Locale.ROOT);
  }

  private static String yes(boolean condition) {
    return condition ? YES : NO;
  }

  private static String hex(int value) {
    return (value < 0x10 ? "0x0" : "0x")
        + Integer.toHexString(value).toUpperCase(Locale.ROOT)
        + 'u';
  }

  private void portable(String name, SortedMap<String, String> traits) {
    modules.add(new Module(name, Module.Scope.PORTABLE, traits, new TreeMap<>(), new TreeMap<>()));
  }

  private void port(String name, SortedMap<String, String> traits) {
    port(name, traits, new TreeMap<>());
  }

  private void port(
      String name, SortedMap<String, String> traits, SortedMap<String, String> forms) {
    modules.add(new Module(name, Module.Scope.PORT, traits, forms, new TreeMap<>()));
  }

  private void limit(String name, long value, String why) {
    define(name, arithmetic.sum().literal(value), why);
  }

  private void define(String name, String literal, String why) {
    constants.add(new Constant(name, literal, why));
  }

  private void define(Map<String, Long> numbers, String why) {
    numbers.forEach((name, number) -> define(name, literal(number), why));
  }

  /** Numbers of more than 16 bits are put together of fields, so they are shown as such. */
  private static String literal(long number) {
    return number > WIDEST_ENABLE
        ? "0x" + Long.toHexString(number).toUpperCase(Locale.ROOT) + 'u'
        : number + "u";
  }

  /** What the chosen pins or their peripheral must be told. */
  private void routeWords(String prefix) {
    routeWords.forEach(
        (name, value) -> {
          if (name.startsWith(prefix)) {
            boolean number = Character.isDigit(value.charAt(0));
            define(name, number ? value + 'u' : value, "as the pins that were chosen need it");
          }
        });
  }

  private void typedef(String name, Whole type, String why) {
    types.add(new TypeName(name, type, why));
  }
}
