package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.fail;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.List;
import java.util.stream.Stream;

/** Plans for tests of wiring and drawings: each part with as many roles as it can have. */
public final class Wirings {
  private static final Catalogue CATALOGUE = Catalogue.load();

  private static final String SENSOR = "loop: cellar\nsensor:\n  address: 0x48\n";
  private static final String LIMIT = "alarm: {when: above, threshold: 8}\n";
  private static final String KNOB = "alarm: {when: above, knob: {from: 2, to: 12}}\n";
  private static final String OUTPUTS = "outputs: {lamp: {}, sounder: {}, relay: {}}\n";
  private static final String EXTRAS =
      "extras: {report: {baud: 9600, send: average}, mute_button: true}\n";

  /** The richest first; the last one runs on any part. */
  private static final List<Loop> LOOPS =
      Stream.of(
              KNOB + OUTPUTS + EXTRAS,
              LIMIT + OUTPUTS + EXTRAS,
              KNOB + "outputs: {lamp: {}, sounder: {}}\n",
              LIMIT + "outputs: {lamp: {}}\n")
          .map(sections -> LoopReader.read("test.yaml", SENSOR + sections))
          .toList();

  private Wirings() {}

  /** A plan for each part of the catalogue that has a port. */
  public static Stream<Firmware> all() {
    return CATALOGUE.targets().stream().map(Wirings::richest);
  }

  private static Firmware richest(Target target) {
    return LOOPS.stream()
        .map(loop -> Plan.of(loop, target))
        .flatMap(plan -> plan instanceof Plan.Possible it ? Stream.of(it.firmware()) : Stream.of())
        .findFirst()
        .orElseGet(() -> fail("No loop runs on " + target.name()));
  }

  /** A plan for one part: a thermometer with a lamp and these sections. */
  public static Firmware of(String target, String sections) {
    String outputs = sections.contains("outputs:") ? "" : "outputs: {lamp: {}}\n";
    String alarm = sections.contains("alarm:") ? "" : LIMIT;
    Loop loop = LoopReader.read("test.yaml", SENSOR + alarm + outputs + sections);
    Plan plan = Plan.of(loop, CATALOGUE.target(target).orElseThrow());
    return plan instanceof Plan.Possible it ? it.firmware() : fail(plan.toString());
  }

  /** With every role that a loop can have. */
  public static Firmware full(String target) {
    return of(target, KNOB + OUTPUTS + EXTRAS);
  }
}
