package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

class CatalogueCheckTest {
  private static final Catalogue CATALOGUE = Catalogue.load();

  private final Optional<CatalogueCheck> found = CatalogueCheck.fromPath();

  @BeforeEach
  void needsTheCompiler() {
    if (found.isEmpty() && "required".equals(System.getProperty("ullage.toolchains"))) {
      fail("No avr-gcc on the PATH, and toolchains are required.");
    }
    assumeTrue(found.isPresent(), "No avr-gcc on the PATH: the catalogue is not held against it.");
  }

  @Test
  void everyTarget_agreesWithItsHeaderAndSpecs() {
    List<Target> targets = CATALOGUE.targets().stream().filter(CatalogueCheck::knows).toList();
    assertTrue(targets.size() > 60, "only " + targets.size() + " targets");
    List<Mismatch> mismatches = found.orElseThrow().check(targets);
    assertTrue(mismatches.isEmpty(), () -> lines(mismatches));
  }

  /** Each fact is really asked: a wrong one is found, and nothing but that. */
  @Test
  void wrongFacts_areFound() {
    Target tiny = target("attiny85");
    Target mega = target("atmega328p");
    assertEquals(List.of("flash bytes"), subjects(with(tiny, 4096, 512, 0x60)));
    assertEquals(List.of("RAM bytes"), subjects(with(tiny, 8192, 256, 0x60)));
    assertEquals(
        List.of("start of RAM", "data start of the specs"), subjects(with(tiny, 8192, 512, 0x100)));
    assertTrue(subjects(with(tiny, mega.family())).contains("two-wire controller"));
    assertTrue(subjects(with(tiny, mega.family())).contains("TWBR"));
    assertTrue(subjects(with(mega, tiny.family())).contains("serial port"));
    assertTrue(subjects(with(mega, tiny.family())).contains("universal serial interface"));
  }

  @Test
  void unknownPart_isOneClearMismatch() {
    Target tiny = target("attiny85");
    Target unknown = named("attiny86", tiny);
    List<String> subjects = subjects(unknown);
    assertEquals(List.of("device header", "device specs"), subjects);
  }

  /** F-080: sizes of types with GCC 5.4, read from the compiler's own macros. */
  @Test
  void sizesOfTypes_areThePublishedOnes() {
    List<Question> published =
        List.of(
            Question.value("short", "__SIZEOF_SHORT__", 2),
            Question.value("int", "__SIZEOF_INT__", 2),
            Question.value("long", "__SIZEOF_LONG__", 4),
            Question.value("long long", "__SIZEOF_LONG_LONG__", 8),
            Question.value("float", "__SIZEOF_FLOAT__", 4),
            Question.value("double", "__SIZEOF_DOUBLE__", 4),
            Question.value("pointer", "__SIZEOF_POINTER__", 2),
            Question.value("size_t", "__SIZEOF_SIZE_T__", 2),
            Question.value("INT_MAX", "__INT_MAX__", 0x7FFF));
    for (String name : List.of("attiny13", "atmega8", "attiny167", "atmega328p", "atmega2560")) {
      assertEquals(List.of(), found.orElseThrow().ask(target(name), published), name);
    }
  }

  /** F-082: what a call puts on the stack, as the compiler for the part says it. */
  @Test
  void returnAddresses_areThePublishedOnes() {
    assertEquals(2, target("atmega328p").returnAddressBytes());
    assertEquals(3, target("atmega2560").returnAddressBytes());
    Question three =
        new Question("return address", "defined(__AVR_3_BYTE_PC__)", "two bytes", "three bytes");
    assertEquals(1, found.orElseThrow().ask(target("atmega328p"), List.of(three)).size());
    assertEquals(0, found.orElseThrow().ask(target("atmega2560"), List.of(three)).size());
  }

  private List<String> subjects(Target target) {
    return found.orElseThrow().check(List.of(target)).stream().map(Mismatch::what).toList();
  }

  private static Target target(String name) {
    return CATALOGUE.target(name).orElseThrow();
  }

  private static Target with(Target t, int flash, int ram, int ramStart) {
    return copy(t.name(), t, t.family(), flash, ram, ramStart);
  }

  private static Target with(Target t, Family family) {
    return copy(t.name(), t, family, t.flashBytes(), t.ramBytes(), t.ramStart());
  }

  private static Target named(String name, Target t) {
    return copy(name, t, t.family(), t.flashBytes(), t.ramBytes(), t.ramStart());
  }

  private static Target copy(
      String name, Target t, Family family, int flash, int ram, int ramStart) {
    return new Target(
        name,
        t.title(),
        family,
        t.toolchain(),
        t.stackPointerBits(),
        t.flashStart(),
        flash,
        t.flashBeside(),
        ram,
        ramStart,
        t.eepromBytes(),
        t.vectors(),
        t.vectorBytes(),
        t.clock(),
        t.packages(),
        t.sources());
  }

  private static String lines(List<Mismatch> mismatches) {
    return mismatches.stream().map(Mismatch::toString).collect(Collectors.joining("\n", "\n", ""));
  }
}
