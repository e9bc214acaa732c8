package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * Every sample on simulated parts of every kind, with every bus driver that they can have: no
 * two-wire hardware (ATtiny13A, AT90USB162), a USI only (the other tinies), a controller of the old
 * register layout (ATmega8) and of the new one, and more than 128 KiB (ATmega2560).
 */
class SampleSimulationTest {
  private static final Map<String, List<String>> SMALL =
      Map.of(
          "bee-hive", List.of("attiny13a", "attiny84", "attiny85"),
          "bilge", List.of("attiny2313a", "attiny84", "at90usb162"),
          "cold-store", List.of("attiny13a", "attiny84", "attiny85"),
          "compost-heap", List.of("attiny2313a", "attiny85", "at90usb162"),
          "grain-dryer", List.of("attiny84", "attiny85", "at90usb162"));
  private static final List<String> MEGAS = List.of("atmega8", "atmega328p", "atmega2560");
  private static final List<String> DRIVERS = List.of("bitbang", "polled", "buffered");
  private static final int READINGS = 90;

  @TempDir static Path folder;
  private static final Map<String, Trial> COURSES = new HashMap<>();
  private static BoardRun run;

  @BeforeAll
  static void build() {
    run = new BoardRun(new SimulatedBoard(folder));
  }

  @AfterAll
  static void sumUp() {
    run.sumUp("samples");
  }

  @TestFactory
  Stream<DynamicTest> samples() {
    List<BoardCase> cases = new ArrayList<>();
    SMALL.forEach((sample, parts) -> parts.forEach(part -> cases.add(of(sample, part, "bitbang"))));
    for (String sample : SMALL.keySet()) {
      for (String part : MEGAS) {
        DRIVERS.forEach(driver -> cases.add(of(sample, part, driver)));
      }
    }
    assertTrue(cases.size() >= 60, () -> cases.size() + " cases");
    return run.tests(cases, SeenChecks::doesItsJob);
  }

  private static BoardCase of(String sample, String part, String driver) {
    return BoardCase.of(
        sample,
        "a random course",
        BoardCase.sample(sample, driver),
        part,
        loop -> COURSES.computeIfAbsent(sample, name -> RandomCourse.of(loop, READINGS)));
  }
}
