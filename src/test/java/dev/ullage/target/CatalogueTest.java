package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

class CatalogueTest {
  private static final Catalogue CATALOGUE = Catalogue.load();

  /** What belongs to no family. */
  private static final List<String> SHARED = List.of("cores.yaml", "electrical.yaml");

  @Test
  void index_listsTheFilesOfTheFolder() throws IOException {
    Path folder = Path.of("targets");
    try (Stream<Path> files = Files.list(folder)) {
      List<String> names =
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith(".yaml") && !SHARED.contains(name))
              .sorted()
              .toList();
      assertEquals(names, Files.readAllLines(folder.resolve("index.txt")));
    }
  }

  @Test
  void folderAndClassPath_giveTheSame() {
    assertEquals(CATALOGUE.parts(), Catalogue.load(Path.of("targets")).parts());
  }

  @Test
  void target_isFoundInAnyCase() {
    assertEquals("ATtiny85", CATALOGUE.target("ATtiny85").orElseThrow().title());
    assertTrue(CATALOGUE.target("attiny99").isEmpty());
    assertEquals("STM32F031E6", CATALOGUE.part("STM32f031E6").orElseThrow().title());
    assertTrue(CATALOGUE.target("stm32f031e6").isEmpty(), "no port");
  }

  /** F-090, F-091: vectors as the ATmega328P data sheet and the avr-libc headers have them. */
  @Test
  void vectors_areThePublishedOnes() {
    assertEquals(26 * 4, vectorBytes("atmega328p"));
    assertEquals(30, vectorBytes("attiny85"));
    assertEquals(228, vectorBytes("atmega2560"));
    assertEquals(38, vectorBytes("atmega8"));
  }

  /** F-092: memory maps as the avr-libc headers have them. */
  @Test
  void memories_areThePublishedOnes() {
    assertMemory("atmega328p", 0x100, 0x8FF, 0x7FFF);
    assertMemory("attiny85", 0x60, 0x25F, 0x1FFF);
    assertMemory("atmega2560", 0x200, 0x21FF, 0x3FFFF);
  }

  @Test
  void packages_haveAsManyPinsAsTheirNameSays() {
    for (Target target : CATALOGUE.targets()) {
      assertTrue(!target.packages().isEmpty(), target.name());
      for (Package one : target.packages()) {
        int pins = Integer.parseInt(one.name().replaceAll(".*-", ""));
        assertEquals(pins, one.pins().size(), target.name() + ' ' + one.name());
      }
    }
  }

  @Test
  void packages_bringOutPinsOfTheFamilyOnceEach() {
    for (Target target : CATALOGUE.targets()) {
      for (Package one : target.packages()) {
        List<String> ports = one.pins().stream().filter(pin -> pin.matches("P[A-Z]\\d+")).toList();
        Set<String> once = new HashSet<>(ports);
        assertEquals(once.size(), ports.size(), target.name() + ' ' + one.name());
        assertTrue(target.family().pins().keySet().containsAll(once), target.name());
      }
    }
  }

  @Test
  void functions_areOnPinsOfTheFamily() {
    for (Family family : CATALOGUE.families()) {
      Set<String> pins = family.pins().keySet();
      family.timers().stream()
          .flatMap(timer -> timer.toggle().stream())
          .forEach(toggle -> assertLead(toggle.routes(), 1, pins, family));
      family.serialPort().ifPresent(port -> assertLead(port.routes(), 1, pins, family));
      family
          .busPort()
          .controller()
          .ifPresent(controller -> assertLead(controller.routes(), 2, pins, family));
    }
  }

  private static void assertLead(List<Route> routes, int pins, Set<String> all, Family family) {
    assertFalse(routes.isEmpty(), family.name());
    for (Route route : routes) {
      assertEquals(pins, route.pins().size(), family.name());
      assertTrue(
          route.pins().stream().allMatch(pin -> pin.equals(Route.ANY) || all.contains(pin)),
          family.name() + route.pins());
    }
  }

  private static int vectorBytes(String name) {
    Target target = CATALOGUE.target(name).orElseThrow();
    return target.vectors() * target.vectorBytes();
  }

  private static void assertMemory(String name, int ramStart, int ramEnd, int flashEnd) {
    Target target = CATALOGUE.target(name).orElseThrow();
    assertEquals(ramStart, target.ramStart());
    assertEquals(ramEnd, target.ramStart() + target.ramBytes() - 1);
    assertEquals(flashEnd, target.flashBytes() - 1);
  }
}
