package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.proof.Script.Line;
import dev.ullage.proof.SimulatedBoard.Simulator;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Package;
import dev.ullage.target.Target;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every sample on parts with other cores than AVR, with every bus driver, and the faults of a
 * sensor; the registers behind the program are models of the manuals. The same course of readings
 * that the AVR parts get gives the same alarms. Further families take the drivers in turn: each
 * sample, each fault and each driver on each of their parts, and over those that share a port each
 * with each.
 */
class CoreSimulationTest {
  private static final List<String> SAMPLES =
      List.of("bee-hive", "bilge", "cold-store", "compost-heap", "grain-dryer");
  private static final List<String> PARTS = List.of("stm32f030f4", "ch32v003f4p6");
  private static final List<String> PARTS_IN_TURN =
      List.of(
          "stm32f103c8",
          "stm32g030f6",
          "stm32c011f4",
          "stm32l011f4",
          "ch32v103c8t6",
          "gd32vf103c8t6",
          "nrf51822_xxaa",
          "samd10d14a",
          "samd20e14a",
          "rp2040-512k",
          "stm32f051k8",
          "stm32f072cb",
          "stm32l053c8",
          "ch32v203k8t6",
          "lpc802m001",
          "lpc812m101",
          "lpc824m201",
          "lpc845m301");
  private static final List<String> DRIVERS = List.of("bitbang", "polled", "buffered");
  private static final int READINGS = 90;
  private static final int PACKAGES_STEP = Integer.getInteger("ullage.packages.step", 4);
  private static final double PERIOD_PART = 0.005;
  private static final int HELD_MS = 1_300;
  private static final Pattern KNOB = Pattern.compile("knob: \\{from: (\\S+), to: (\\S+)}");

  /** A freezer's thermometer with a check byte after its sample. */
  private static final String FREEZER =
      """
      loop: freezer
      period_ms: 500
      sensor:
        address: 0x41
        ask: [0x05, 0x7E]
        frozen_after: 5
        frame:
          sample_bytes: 2
          check: {crc8: {poly: 0x07, init: 0x00, over: sample}}
        scale: {gain: 0.0625, unit: degC}
      alarm: {when: above, threshold: 20, hysteresis: 1, on_sensor_fault: alarm, faults_allowed: 2}
      outputs: {lamp: {}}
      """;

  /** Dough that rises: what follows from the clock, all in one. */
  private static final String PROOFER =
      """
      loop: bread proofer
      period_ms: 500
      sensor:
        address: 0x2A
        speed_hz: SPEED
        frame: {sample_bytes: 2, byte_order: big, signed: true}
        scale: {gain: 0.05, unit: degC}
      alarm: {when: above, knob: {from: 20, to: 40}, hysteresis: 1}
      outputs: {lamp: {}, sounder: {tone_hz: 2000}}
      extras: {report: {baud: 9600, send: average}, watchdog_ms: 1000}
      board: {clock_hz: CLOCK}
      """;

  /** Fast and slow, and each way in which a port sets its clock. */
  private static final List<String> CLOCKS =
      List.of(
          "stm32f030f4 polled 48000000",
          "ch32v003f4p6 buffered 48000000",
          "stm32f103c8 buffered 32000000",
          "stm32f103c8 polled 2000000",
          "stm32g030f6 polled 64000000",
          "stm32g030f6 buffered 1000000",
          "stm32c011f4 buffered 48000000",
          "stm32l011f4 polled 32000000",
          "stm32l011f4 buffered 16000000",
          "stm32l011f4 bitbang 4194304",
          "ch32v103c8t6 polled 32000000",
          "gd32vf103c8t6 bitbang 32000000",
          "stm32f051k8 buffered 48000000",
          "stm32f072cb polled 2000000",
          "stm32l053c8 buffered 32000000",
          "stm32l053c8 polled 4194304",
          "ch32v203k8t6 buffered 48000000",
          "lpc802m001 polled 12000000",
          "lpc802m001 buffered 2000000",
          "lpc812m101 buffered 30000000",
          "lpc824m201 polled 30000000",
          "lpc824m201 buffered 1000000",
          "lpc845m301 polled 24000000",
          "lpc845m301 bitbang 4000000");

  @TempDir static Path folder;
  private static final Map<String, Trial> COURSES = new HashMap<>();
  private static BoardRun run;

  @BeforeAll
  static void build() {
    run = new BoardRun(new SimulatedBoard(folder, Simulator.UNICORN));
  }

  @AfterAll
  static void sumUp() {
    run.sumUp("other cores");
  }

  @TestFactory
  Stream<DynamicTest> samples() {
    List<BoardCase> cases = new ArrayList<>();
    for (int i = 0; i < SAMPLES.size(); i++) {
      String sample = SAMPLES.get(i);
      for (String place : places(i)) {
        String part = partOf(place);
        cases.add(
            BoardCase.of(
                sample,
                "a random course",
                possible(BoardCase.sample(sample, driverOf(place)), part),
                part,
                CoreSimulationTest::course));
      }
    }
    return run.tests(cases, CoreSimulationTest::doesItsJob);
  }

  /** Without settings where the part has no place for them, or a knob where it has no converter. */
  private static String possible(String text, String part) {
    Target target = Catalogue.load().target(part).orElseThrow();
    String kept =
        target.family().keeping().isPresent()
            ? text
            : text.replace("settings: true", "settings: false");
    String judged = target.family().converter().isPresent() ? kept : withoutKnob(kept);
    return atClockOf(part, judged);
  }

  /** With what a knob in its middle says. */
  private static String withoutKnob(String text) {
    return KNOB.matcher(text)
        .replaceAll(
            knob -> {
              BigDecimal ends = new BigDecimal(knob.group(1)).add(new BigDecimal(knob.group(2)));
              return "threshold: " + ends.divide(BigDecimal.valueOf(2));
            });
  }

  /** Parts and drivers for the sample or fault of this number. */
  private static List<String> places(int number) {
    List<String> places = new ArrayList<>();
    for (String part : PARTS) {
      DRIVERS.forEach(driver -> places.add(part + " " + driver));
    }
    for (int i = 0; i < PARTS_IN_TURN.size(); i++) {
      places.add(PARTS_IN_TURN.get(i) + " " + DRIVERS.get((i + number) % DRIVERS.size()));
    }
    return places;
  }

  private static String partOf(String place) {
    return place.substring(0, place.indexOf(' '));
  }

  private static String driverOf(String place) {
    return place.substring(place.indexOf(' ') + 1);
  }

  /**
   * An oscillator of 48 MHz, divided by powers of two, has 12 MHz next to the 8 of a sample, and so
   * have the smallest LPC800; nRF51 has one clock.
   */
  private static String atClockOf(String part, String text) {
    boolean twelve = part.startsWith("stm32c0") || part.startsWith("lpc80");
    String clock = twelve ? "12000000" : part.startsWith("nrf51") ? "16000000" : "8000000";
    return text.replace("clock_hz: 8000000", "clock_hz: " + clock);
  }

  private static void doesItsJob(BoardCase each, Seen seen) {
    assertAll(
        () -> SeenChecks.doesItsJob(each, seen),
        () -> keepsPeriod(each.trial().loop().periodMs(), seen));
  }

  /** On the whole; single readings may begin a tick's part late. */
  private static void keepsPeriod(int wanted, Seen seen) {
    double mean = seen.periodsMs().stream().mapToDouble(ms -> ms).average().orElseThrow();
    assertEquals(wanted, mean, PERIOD_PART * wanted, "mean period in ms");
  }

  @TestFactory
  Stream<DynamicTest> faults() {
    List<BoardCase> cases = new ArrayList<>();
    add(cases, "address not acknowledged", loop -> failing(loop, Trial::deaf));
    add(cases, "data not acknowledged", loop -> failing(loop, Trial::refuses));
    add(cases, "wrong check byte", loop -> failing(loop, trial -> trial.wrongCheck(25)));
    add(cases, "frozen value", CoreSimulationTest::freezing);
    add(cases, "clock stretched", CoreSimulationTest::stretching);
    return run.tests(cases, SeenChecks::doesItsJob);
  }

  /** A sensor cut off within a byte is clocked free at once; a held line costs readings only. */
  @TestFactory
  Stream<DynamicTest> heldBus() {
    List<BoardCase> cases = new ArrayList<>();
    add(cases, "SDA stuck in a byte", loop -> held(loop, Script::cutOff));
    add(cases, "SDA held", loop -> held(loop, script -> script.hold(Line.DATA, HELD_MS)));
    add(cases, "SCL held", loop -> held(loop, script -> script.hold(Line.CLOCK, HELD_MS)));
    return run.tests(cases, CoreSimulationTest::isFreed);
  }

  private static void isFreed(BoardCase each, Seen seen) {
    assertEquals(each.trial().expected().alarms(), seen.alarms());
    double pause = seen.periodsMs().get(2);
    int most = each.what().contains("stuck") ? 510 : HELD_MS + 2 * 510;
    assertTrue(pause <= most, () -> pause + " ms until the bus was free");
  }

  /**
   * Wait states, converter, serial line, tone and bus follow the clock; watched by the watchdog.
   */
  @TestFactory
  Stream<DynamicTest> clocks() {
    List<BoardCase> cases = new ArrayList<>();
    for (String each : CLOCKS) {
      String[] words = each.split(" ");
      boolean slow = words[2].length() < 8;
      String text =
          possible(PROOFER, words[0])
              .replace("CLOCK", words[2])
              .replace("SPEED", slow ? "100000" : "400000");
      cases.add(
          BoardCase.of(
              "bread proofer",
              words[2] + " Hz",
              BoardCase.driven(text, words[1]),
              words[0],
              CoreSimulationTest::rising));
    }
    return run.tests(cases, CoreSimulationTest::doesItsJob);
  }

  /** The bus on the other pair of pins that its controller can be led to. */
  @TestFactory
  Stream<DynamicTest> ledElsewhere() {
    String text = FREEZER + "board: {pins: {sda: PB9, scl: PB8}}\n";
    List<BoardCase> cases = new ArrayList<>();
    for (String place :
        List.of(
            "stm32f103c8 polled",
            "gd32vf103c8t6 buffered",
            "stm32f072cb buffered",
            "stm32l053c8 polled",
            "ch32v203rbt6 polled")) {
      String driven = BoardCase.driven(text, driverOf(place));
      cases.add(
          BoardCase.of(
              "freezer", "other pins", driven, partOf(place), CoreSimulationTest::freezing));
    }
    return run.tests(cases, SeenChecks::doesItsJob);
  }

  /** Packages that none of the above has, or with {@code -Pnightly} each of them. */
  @TestFactory
  Stream<DynamicTest> everyPackage() {
    Set<List<?>> met = new HashSet<>();
    Stream.concat(PARTS.stream(), PARTS_IN_TURN.stream())
        .forEach(name -> met.add(packageOf(Catalogue.load().target(name).orElseThrow())));
    List<BoardCase> cases = new ArrayList<>();
    Catalogue.load().targets().stream()
        .filter(target -> target.stackPointerBits() == Integer.SIZE && met.add(packageOf(target)))
        .forEach(target -> coldStore(target, cases.size()).ifPresent(cases::add));
    List<BoardCase> some =
        IntStream.range(0, cases.size())
            .filter(i -> i % PACKAGES_STEP == 0)
            .mapToObj(cases::get)
            .toList();
    return run.tests(some, CoreSimulationTest::doesItsJob);
  }

  /** Empty where the package has not got as many pins; with another driver where that is why. */
  private static Optional<BoardCase> coldStore(Target target, int number) {
    String part = target.name();
    return Stream.of(DRIVERS.get(number % DRIVERS.size()), "auto")
        .map(driver -> possible(BoardCase.sample("cold-store", driver), part))
        .filter(text -> Plan.of(LoopReader.read(part, text), target) instanceof Plan.Possible)
        .findFirst()
        .map(
            text ->
                BoardCase.of(
                    "cold-store", "in its package", text, part, CoreSimulationTest::course));
  }

  /** The same readings for all that have the same to judge. */
  private static Trial course(Loop loop) {
    return COURSES.computeIfAbsent(
        loop.name() + loop.alarm() + loop.extras().settings(),
        n -> RandomCourse.of(loop, READINGS));
  }

  private static List<?> packageOf(Target target) {
    return List.of(target.family().name(), target.firstPackage().map(Package::pins));
  }

  private static Trial rising(Loop loop) {
    Trial trial = new Trial(loop).knob(2_500);
    return trial.unit(28).unit(29.5).unit(31).unit(33).unit(29.5).unit(28.5).unit(28);
  }

  private static void add(List<BoardCase> cases, String what, Function<Loop, Trial> trial) {
    boolean held = what.contains("held") || what.contains("stuck");
    String text = FREEZER.replace("fault: alarm", "fault: " + (held ? "hold" : "alarm"));
    // One driver for all of a part that has drivers in turn, so that it is built once.
    for (String place : places(held ? 1 : 0)) {
      String driven = BoardCase.driven(text, driverOf(place));
      cases.add(BoardCase.of("freezer", what, driven, partOf(place), trial));
    }
  }

  private static Trial failing(Loop loop, Consumer<Trial> fault) {
    Trial trial = new Trial(loop).unit(12).unit(12.5);
    fault.accept(trial);
    trial.unit(12);
    for (int i = 0; i < 4; i++) {
      fault.accept(trial);
    }
    return trial.unit(12).unit(12.5).unit(25).unit(25.5).unit(12).unit(12.5);
  }

  private static Trial freezing(Loop loop) {
    Trial trial = new Trial(loop);
    for (double side : new double[] {12, 25, 12}) {
      trial.unit(side).unit(side + 0.5).units(9, side).unit(side + 0.5).units(4, side);
    }
    return trial;
  }

  private static Trial stretching(Loop loop) {
    Trial trial = new Trial(loop);
    trial.script().stretch(300_000);
    return trial.unit(12).unit(12.5).unit(25).unit(25.5).unit(12).unit(12.5);
  }

  private static Trial held(Loop loop, Consumer<Script> hold) {
    Trial trial = new Trial(loop).unit(12).unit(12.5).unit(12);
    hold.accept(trial.script());
    return trial.unit(25).unit(25.5).unit(25).unit(12).unit(12.5);
  }
}
