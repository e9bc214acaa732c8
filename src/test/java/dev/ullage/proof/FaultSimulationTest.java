package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.proof.Script.Line;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/** Every fault of a sensor with every bus driver: what the loop file said, and back to work. */
class FaultSimulationTest {
  /** A pantry's thermometer with a check byte after its sample. */
  private static final String PANTRY =
      """
      loop: pantry
      period_ms: 500
      sensor:
        address: 0x41
        ask: [0x05, 0x7E]
        frame:
          sample_bytes: 2
          check: {crc8: {poly: 0x07, init: 0x00, over: sample}}
        scale: {gain: 0.0625, unit: degC}
      alarm:
        when: above
        threshold: 20
        hysteresis: 1
        trip_after: 2
        clear_after: 2
        on_sensor_fault: POLICY
        faults_allowed: 2
      outputs: {lamp: {}}
      """;

  private static final double COLD = 12;
  private static final double WARM = 25;
  private static final int ALLOWED = 2;
  // A line that is held for so long costs a few readings, no more.
  private static final int HELD_MS = 1_300;
  private static final int STRETCH_NS = 300_000;
  // Longer than the patience of any driver.
  private static final int ENDLESS_NS = 200_000_000;

  private static final Map<String, String> PARTS =
      Map.of("bitbang", "attiny85", "polled", "atmega8", "buffered", "atmega328p");

  @TempDir static Path folder;
  private static BoardRun run;

  @BeforeAll
  static void build() {
    run = new BoardRun(new SimulatedBoard(folder));
  }

  @AfterAll
  static void sumUp() {
    run.sumUp("faults");
  }

  /** Each kind of fault while the alarm is off and while it is on, longer than is forgiven. */
  @TestFactory
  Stream<DynamicTest> readingsThatFail() {
    List<BoardCase> cases = new ArrayList<>();
    for (String policy : List.of("alarm", "hold", "quiet")) {
      Map<String, Consumer<Trial>> faults =
          Map.of(
              "address not acknowledged", Trial::deaf,
              "data not acknowledged", Trial::refuses,
              "wrong check byte", trial -> trial.wrongCheck(WARM));
      faults.forEach(
          (what, fault) ->
              PARTS.forEach(
                  (driver, part) ->
                      cases.add(
                          BoardCase.of(
                              "pantry",
                              what + ", " + policy,
                              text(policy, driver),
                              part,
                              loop -> failing(loop, fault)))));
    }
    return run.tests(cases, SeenChecks::doesItsJob);
  }

  private static Trial failing(Loop loop, Consumer<Trial> fault) {
    Trial trial = new Trial(loop).units(2, COLD);
    times(ALLOWED, trial, fault);
    trial.unit(COLD);
    times(ALLOWED + 2, trial, fault);
    trial.units(3, COLD).units(3, WARM);
    times(ALLOWED + 2, trial, fault);
    return trial.units(3, WARM).units(3, COLD);
  }

  private static void times(int count, Trial trial, Consumer<Trial> what) {
    for (int i = 0; i < count; i++) {
      what.accept(trial);
    }
  }

  /** A sensor whose value does not change at all for five readings has failed. */
  @TestFactory
  Stream<DynamicTest> frozenSensor() {
    List<BoardCase> cases = new ArrayList<>();
    for (String policy : List.of("alarm", "hold", "quiet")) {
      PARTS.forEach(
          (driver, part) ->
              cases.add(
                  BoardCase.of(
                      "pantry",
                      "frozen value, " + policy,
                      text(policy, driver).replace("  ask:", "  frozen_after: 5\n  ask:"),
                      part,
                      FaultSimulationTest::freezing)));
    }
    return run.tests(cases, SeenChecks::doesItsJob);
  }

  private static Trial freezing(Loop loop) {
    Trial trial = new Trial(loop);
    for (double side : new double[] {COLD, WARM, COLD}) {
      trial.unit(side).unit(side + 0.5).units(9, side).unit(side + 0.5).units(4, side);
    }
    return trial;
  }

  /** A sensor cut off within a byte is clocked free at once; a held line costs readings only. */
  @TestFactory
  Stream<DynamicTest> heldBus() {
    Map<String, Consumer<Script>> holds =
        Map.of(
            "SDA stuck in a byte", Script::cutOff,
            "SDA held", script -> script.hold(Line.DATA, HELD_MS),
            "SCL held", script -> script.hold(Line.CLOCK, HELD_MS));
    List<BoardCase> cases = new ArrayList<>();
    holds.forEach(
        (what, hold) ->
            PARTS.forEach(
                (driver, part) ->
                    cases.add(
                        BoardCase.of(
                            "pantry",
                            what,
                            text("hold", driver),
                            part,
                            loop -> held(loop, hold)))));
    return run.tests(cases, FaultSimulationTest::isFreed);
  }

  private static Trial held(Loop loop, Consumer<Script> hold) {
    Trial trial = new Trial(loop).units(3, COLD);
    hold.accept(trial.script());
    return trial.units(3, WARM).units(3, COLD);
  }

  private static void isFreed(BoardCase each, Seen seen) {
    assertEquals(each.trial().expected().alarms(), seen.alarms());
    double pause = seen.periodsMs().get(2);
    int most = each.what().contains("stuck") ? 510 : HELD_MS + 2 * 510;
    assertTrue(pause <= most, () -> pause + " ms until the bus was free");
  }

  /** A sensor may gain time by holding the clock; one that never lets go has failed. */
  @TestFactory
  Stream<DynamicTest> stretchedClock() {
    List<BoardCase> cases = new ArrayList<>();
    PARTS.forEach(
        (driver, part) -> {
          String text = text("alarm", driver);
          cases.add(
              BoardCase.of("pantry", "clock stretched", text, part, loop -> stretching(loop)));
          cases.add(
              BoardCase.of("pantry", "clock never let go", text, part, loop -> endless(loop)));
        });
    return run.tests(
        cases, (each, seen) -> assertEquals(each.trial().expected().alarms(), seen.alarms()));
  }

  private static Trial stretching(Loop loop) {
    Trial trial = new Trial(loop);
    trial.script().stretch(STRETCH_NS);
    return trial.units(3, COLD).units(4, WARM).units(4, COLD);
  }

  private static Trial endless(Loop loop) {
    Trial trial = new Trial(loop).units(3, COLD);
    trial.script().stretch(ENDLESS_NS);
    for (int i = 0; i < ALLOWED + 2; i++) {
      trial.script().frame(0, 0, 0);
      trial.expected().fault();
    }
    trial.script().stretch(0);
    return trial.units(4, COLD);
  }

  private static String text(String policy, String driver) {
    return BoardCase.driven(PANTRY.replace("POLICY", policy), driver);
  }
}
