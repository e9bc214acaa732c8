package dev.ullage.firmware;

import dev.ullage.loop.Board.Role;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.target.Pin;
import dev.ullage.target.Route;
import dev.ullage.target.Target;
import dev.ullage.target.Timer;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/** Decides everything about one loop on one target, hardware first, then numbers. */
final class Planner {
  private static final String PIN = "pin";
  private static final int STEPPING_TICK_MS = 100;
  private static final int BUTTON_TICK_MS = 50;
  private static final int LONGEST_TICK_MS = 1000;
  private static final int CHARACTERS_OF_A_VALUE = 9;
  private static final int BITS_OF_A_CHARACTER = 10;

  private final Workings workings;
  private final Loop loop;
  private final Target target;
  private final List<Pin> available;
  private final List<String> notes = new ArrayList<>();
  private final Map<String, String> routeWords = new LinkedHashMap<>();

  private Planner(Workings workings, Target target, List<Pin> available) {
    this.workings = workings;
    this.loop = workings.loop();
    this.target = target;
    this.available = available;
  }

  /**
   * What comes of it.
   *
   * @param available the pins that may be used, in the order in which they are handed out
   */
  static Plan plan(Workings workings, Target target, List<Pin> available) {
    try {
      return new Plan.Possible(firmware(workings, target, available));
    } catch (Lacking lacking) {
      return new Plan.Impossible(lacking.lack());
    } catch (Whole.TooWide wide) {
      return new Plan.Impossible(new Lack("arithmetic", wide.getMessage()));
    }
  }

  /**
   * The plan. Where nobody asked for the bus controller, and something else has its pins, the
   * program moves other pins.
   *
   * @throws Lacking if the target has no such pin, peripheral, clock or voltage
   */
  private static Firmware firmware(Workings workings, Target target, List<Pin> available) {
    Loop loop = workings.loop();
    Clocking clock = Clocking.of(loop.board(), target);
    BusPlan bus = workings.bus(target, clock.hz());
    try {
      return new Planner(workings, target, available).firmware(clock, bus);
    } catch (Lacking lacking) {
      boolean free = loop.busDriver() == BusDriver.AUTO && bus.driver() != BusDriver.BITBANG;
      if (!free || !lacking.lack().resource().equals(PIN)) {
        throw lacking;
      }
      try {
        BusPlan moved = BusPlan.moved(lacking.lack().reason(), loop, target, clock.hz());
        return new Planner(workings, target, available).firmware(clock, moved);
      } catch (Lacking still) {
        throw lacking;
      }
    }
  }

  private Firmware firmware(Clocking clock, BusPlan bus) {
    checkHeldBus(bus);
    checkPeripherals();
    Pins pins = new Pins(available, loop.board().pins(), clock.source() == Clocking.Source.OUTSIDE);
    Optional<Timer> toneTimer = toneTimer();
    assign(pins, bus, toneTimer);
    Optional<Serial> serial =
        loop.extras().report().map(r -> Serial.of(target, clock.hz(), r.baud()));
    Optional<Tone> tone =
        toneTimer.map(timer -> Tone.nearest(timer, clock.hz(), sounder().orElseThrow().toneHz()));
    Pace pace = pace(bus, clock, tone, serial);
    Arithmetic arithmetic = workings.arithmetic();
    noteClock(clock);
    if (target.flashBeside()) {
      notes.add("program memory is a chip beside the part");
    }
    loop.extras().watchdogMs().ifPresent(this::noteWatchdog);
    noteSleep();
    noteSpeed(bus);
    Assembly assembly =
        new Assembly(
            loop,
            target,
            clock,
            bus,
            pace,
            tone,
            serial,
            arithmetic,
            pins.given(),
            routeWords,
            busyMs(bus));
    return new Firmware(
        loop,
        target,
        clock,
        bus,
        pace,
        tone,
        serial,
        arithmetic,
        pins.given(),
        assembly.types(),
        assembly.constants(),
        assembly.modules(),
        assembly.buffers(),
        notes);
  }

  private Optional<Outputs.Sounder> sounder() {
    return loop.outputs().sounder();
  }

  private void checkHeldBus(BusPlan bus) {
    boolean held = loop.sensor().restart() && loop.sensor().waitMs() > 0;
    if (bus.driver() == BusDriver.BUFFERED && held && !loop.sensor().ask().isEmpty()) {
      throw new Lacking(
          "peripheral",
          "the buffered driver cannot hold the bus for "
              + loop.sensor().waitMs()
              + " ms before a repeated START");
    }
  }

  private void checkPeripherals() {
    if (loop.alarm().limit().knob().isPresent() && target.family().converter().isEmpty()) {
      throw new Lacking("peripheral", "the knob needs an analog converter, and the part has none");
    }
    if (loop.extras().settings() && !keepsSettings()) {
      throw new Lacking("peripheral", "settings need EEPROM, and the part has none");
    }
    if (loop.extras().sleep() == Extras.Sleep.DEEP && !Naps.possible(target.family())) {
      throw new Lacking(
          "peripheral", "deep sleep needs a timer that wakes the part, and its port uses none");
    }
  }

  private boolean keepsSettings() {
    return target
        .family()
        .keeping()
        .filter(k -> k.inFlash() || target.eepromBytes() > 0)
        .isPresent();
  }

  /** The timer whose pin makes the tone: a small one, so that the large one counts time. */
  private Optional<Timer> toneTimer() {
    if (sounder().isEmpty() || sounder().get().toneHz() == 0) {
      return Optional.empty();
    }
    String named = loop.board().pins().get(Role.SOUNDER);
    List<Timer> able =
        target.family().timers().stream()
            .filter(timer -> timer.toggle().isPresent())
            .filter(timer -> named == null || leads(timer.toggle().get(), named))
            .toList();
    if (able.isEmpty()) {
      throw new Lacking(
          named == null ? "peripheral" : PIN,
          named == null
              ? "the tone needs a timer that toggles a pin, and the part has none"
              : "the tone needs a timer's own pin, which " + named + " is not");
    }
    return Stream.concat(
            able.stream().filter(timer -> timer.bits() == 8),
            able.stream().filter(timer -> timer.bits() != 8))
        .findFirst();
  }

  private static boolean leads(Timer.Toggle toggle, String pin) {
    return toggle.routes().stream().anyMatch(route -> route.leadsTo(pin));
  }

  private void assign(Pins pins, BusPlan bus, Optional<Timer> toneTimer) {
    toneTimer.ifPresent(
        timer ->
            lead(
                pins,
                "TONE",
                List.of(Role.SOUNDER),
                timer.toggle().orElseThrow().routes(),
                timer.name() + "'s output"));
    if (bus.driver() == BusDriver.BITBANG) {
      // What hardware dictates comes before what may be anywhere.
      leadReport(pins);
      if (loop.alarm().limit().knob().isPresent() && !pins.isNamed(Role.KNOB)) {
        keepKnobPin(pins);
      }
      pins.choose(Role.SDA, "a plain pin", pin -> true);
      pins.choose(Role.SCL, "a plain pin", pin -> true);
    } else {
      lead(
          pins,
          "BUS",
          List.of(Role.SDA, Role.SCL),
          target.family().busPort().controller().orElseThrow().routes(),
          "the two-wire controller");
    }
    assignRest(pins);
  }

  /** What the route must be told becomes constants that begin with the prefix. */
  private void lead(Pins pins, String prefix, List<Role> roles, List<Route> routes, String why) {
    pins.lead(roles, routes, why)
        .words()
        .forEach(
            (word, value) -> routeWords.put(prefix + '_' + word.toUpperCase(Locale.ROOT), value));
  }

  /**
   * The last analog pin in the order of handing out, so that the bus does not take the only one.
   */
  private void keepKnobPin(Pins pins) {
    pins.all().stream()
        .filter(pin -> pin.converterChannel().isPresent() && pins.isFree(pin))
        .reduce((first, second) -> second)
        .ifPresent(pin -> pins.dictate(Role.KNOB, pin.name(), "the converter"));
  }

  private void assignRest(Pins pins) {
    if (loop.alarm().limit().knob().isPresent() && !pins.given().containsKey(Role.KNOB)) {
      pins.choose(Role.KNOB, "an input of the converter", p -> p.converterChannel().isPresent());
    }
    leadReport(pins);
    if (loop.extras().report().isPresent() && !pins.given().containsKey(Role.TRANSMIT)) {
      pins.choose(Role.TRANSMIT, "a plain pin", this::bitReach);
    }
    loop.outputs().lamp().ifPresent(lamp -> pins.choose(Role.LAMP, "a plain pin", pin -> true));
    if (sounder().isPresent() && !pins.given().containsKey(Role.SOUNDER)) {
      pins.choose(Role.SOUNDER, "a plain pin", pin -> true);
    }
    loop.outputs().relay().ifPresent(relay -> pins.choose(Role.RELAY, "a plain pin", pin -> true));
    if (loop.extras().muteButton()) {
      pins.choose(Role.MUTE, "a plain pin", pin -> true);
    }
  }

  /** The pin of the serial port, where the part has one and it has none yet. */
  private void leadReport(Pins pins) {
    if (loop.extras().report().isPresent() && !pins.given().containsKey(Role.TRANSMIT)) {
      target
          .family()
          .serialPort()
          .ifPresent(
              port ->
                  lead(pins, "SERIAL", List.of(Role.TRANSMIT), port.routes(), "the serial port"));
    }
  }

  private boolean bitReach(Pin pin) {
    return pin.reach() == Pin.Reach.BIT;
  }

  private Pace pace(BusPlan bus, Clocking clock, Optional<Tone> tone, Optional<Serial> serial) {
    Pace.Needs needs = new Pace.Needs(loop.periodMs(), patternMs(), longestTickMs(), busyMs(bus));
    Optional<Timer> own =
        target.family().timers().stream()
            .filter(timer -> tone.isEmpty() || !tone.get().timer().name().equals(timer.name()))
            .findFirst();
    if (own.isPresent()) {
      return Pace.alone(own.get(), clock.hz(), needs)
          .orElseThrow(
              () ->
                  new Lacking(
                      "clock",
                      "no divider of " + own.get().name() + " keeps the period and the patterns"));
    }
    if (tone.isEmpty()) {
      throw new Lacking("peripheral", "the part has no timer to count time with");
    }
    if (serial.isPresent() && serial.get().hardware().isEmpty()) {
      throw new Lacking(
          "peripheral",
          "the part's only timer makes the tone and counts time,"
              + " and a serial line sent by the program would hold it up");
    }
    return Pace.shared(tone.get(), needs)
        .orElseThrow(
            () ->
                new Lacking(
                    "clock",
                    "the part's only timer makes the tone, and cannot count time at that rate"));
  }

  private List<Integer> patternMs() {
    List<Integer> times = new ArrayList<>();
    loop.outputs().lamp().filter(lamp -> lamp.blinkMs() > 0).ifPresent(l -> times.add(l.blinkMs()));
    sounder()
        .filter(Outputs.Sounder::hasPattern)
        .ifPresent(s -> times.addAll(List.of(s.onMs(), s.offMs())));
    return times;
  }

  private int longestTickMs() {
    int untilRestart = loop.extras().watchdogMs().orElse(Integer.MAX_VALUE);
    return Math.max(1, Math.min(untilRestart / 3, longestPatternTickMs()));
  }

  private int longestPatternTickMs() {
    if (loop.extras().muteButton()) {
      return BUTTON_TICK_MS;
    }
    int waitMs = loop.sensor().waitMs();
    int steps = patternMs().isEmpty() ? LONGEST_TICK_MS : STEPPING_TICK_MS;
    // A wait ends on a tick: short ticks keep it from taking much longer than it must.
    return waitMs > 0 ? Math.min(steps, Math.max(5, waitMs)) : steps;
  }

  /** Milliseconds that one reading and its report keep the program from looking at the time. */
  private double busyMs(BusPlan bus) {
    double ms = bus.ms(loop.sensor().ask().size() + 2 + loop.sensor().frame().bytes());
    if (loop.extras().report().isPresent()) {
      Extras.Report report = loop.extras().report().get();
      int values = report.send() == Extras.Report.Send.FRAME ? loop.sensor().frame().samples() : 1;
      ms += 1000.0 * values * CHARACTERS_OF_A_VALUE * BITS_OF_A_CHARACTER / report.baud();
    }
    return ms;
  }

  private void noteClock(Clocking clock) {
    if (clock.source() != Clocking.Source.OUTSIDE && clock.source() != Clocking.Source.CRYSTAL) {
      notes.add(
          "every time and rate counts on the part's own oscillator, which may be off by several"
              + " per cent until it is calibrated");
    }
    switch (clock.source()) {
      case FACTORY -> notes.add("runs at " + Clocking.megahertz(clock.hz()) + ", as delivered");
      case PROGRAM -> notes.add("the program sets the clock to " + Clocking.megahertz(clock.hz()));
      case CRYSTAL ->
          notes.add(
              "the program sets the clock to "
                  + Clocking.megahertz(clock.hz())
                  + ", from a crystal of "
                  + Clocking.megahertz(target.clock().factoryHz())
                  + " that the part needs");
      case FUSES ->
          notes.add(
              "fuses must choose the internal " + Clocking.megahertz(clock.hz()) + " oscillator");
      case OUTSIDE ->
          notes.add(
              "needs a crystal or a clock of "
                  + Clocking.megahertz(clock.hz())
                  + " from outside, and fuses that choose it");
    }
  }

  private void noteWatchdog(int ms) {
    long real = Guard.of(target.family().watchdog(), ms).realMs();
    if (real != ms) {
      notes.add("the watchdog knows " + real + " ms, not " + ms + " ms");
    }
  }

  /** Where the watchdog itself ends naps there is no time in which both count. */
  private void noteSleep() {
    if (loop.extras().sleep() == Extras.Sleep.DEEP && target.family().sleep().nap().isPresent()) {
      notes.add(
          "naps count on a slow oscillator of the part's own, which may be off by more than the"
              + " fast one; debuggers lose a part that naps");
      if (loop.extras().watchdogMs().isPresent()) {
        notes.add("the watchdog goes on while the part naps, and is fed before each nap");
      }
    }
  }

  private void noteSpeed(BusPlan bus) {
    if (bus.hz() < 0.9 * loop.sensor().speedHz()) {
      notes.add(
          "the bus runs at about "
              + Decimal.of(bus.hz() / 1000, 0)
              + " kHz, of the "
              + Decimal.of(loop.sensor().speedHz() / 1000.0, 0)
              + " kHz that it may");
    }
  }
}
