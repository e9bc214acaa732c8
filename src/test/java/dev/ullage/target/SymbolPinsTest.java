package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Holds the pin numbers of every part that has a port and a symbol against that symbol (Debian
 * package kicad-symbols 6.0.10). Parts that get a port later are held against theirs by themselves.
 */
class SymbolPinsTest {
  private static final Path SYMBOLS = Path.of("/usr/share/kicad/symbols");

  /**
   * Libraries drawn by hand from data sheets. Those of STM32 are left out, for they are made from a
   * data base of the maker's tools and are no witness of their own.
   */
  private static final List<String> LIBRARIES =
      List.of(
          "MCU_Microchip_ATtiny",
          "MCU_Microchip_ATmega",
          "MCU_Microchip_AVR",
          "MCU_Microchip_SAMD",
          "MCU_NXP_LPC",
          "MCU_RaspberryPi",
          "MCU_SiliconLabs");

  private static final List<Target> TARGETS = Catalogue.load().targets();

  @Test
  void pinNumbers_areThoseOfTheSymbols() throws IOException {
    Tool.requireFile(SYMBOLS, "kicad-symbols");
    Set<String> compared = new TreeSet<>();
    List<String> differ = new ArrayList<>();
    for (String library : LIBRARIES) {
      for (Symbol symbol : Symbol.all(Files.readString(SYMBOLS.resolve(library + ".kicad_sym")))) {
        targetOf(symbol)
            .ifPresent(
                target ->
                    drawingOf(target, symbol)
                        .ifPresent(
                            drawing -> {
                              compared.add(target.name());
                              differ.addAll(differences(target, drawing, symbol));
                            }));
      }
    }
    assertEquals(List.of(), differ);
    assertTrue(compared.size() >= 120, compared.size() + " parts: " + compared);
    assertTrue(compared.stream().anyMatch(name -> name.startsWith("rp2040")), "RP2040");
  }

  /** Ball grids too are held against symbols, not numbered packages only. */
  @Test
  void balls_areCompared() throws IOException {
    Tool.requireFile(SYMBOLS, "kicad-symbols");
    Set<String> compared = new TreeSet<>();
    for (String library : LIBRARIES) {
      for (Symbol symbol : Symbol.all(Files.readString(SYMBOLS.resolve(library + ".kicad_sym")))) {
        targetOf(symbol)
            .flatMap(target -> drawingOf(target, symbol))
            .filter(drawing -> !drawing.balls().isEmpty())
            .ifPresent(
                drawing -> {
                  assertEquals(symbol.pins().keySet(), Set.copyOf(drawing.balls()), symbol.name());
                  compared.add(symbol.name());
                });
      }
    }
    assertTrue(compared.size() >= 11, compared.toString());
  }

  /** One symbol, `nRF51x22-QFxx`, stands for several parts, and its pins have one digit up to 9. */
  @Test
  void pinNumbersOfNrf51_areThoseOfTheirSymbol() throws IOException {
    Tool.requireFile(SYMBOLS, "kicad-symbols");
    Symbol drawn =
        Symbol.all(Files.readString(SYMBOLS.resolve("MCU_Nordic.kicad_sym"))).stream()
            .filter(symbol -> symbol.name().equals("nRF51x22-QFxx"))
            .findFirst()
            .orElseThrow();
    Map<String, Set<String>> pins = new HashMap<>();
    drawn
        .pins()
        .forEach((number, names) -> pins.put(number, Set.of(twoDigits(String.join("/", names)))));
    Symbol symbol = new Symbol(drawn.name(), drawn.packageName(), pins);
    List<Target> parts =
        TARGETS.stream().filter(target -> target.title().matches("nRF51[48]22_.*")).toList();
    assertEquals(6, parts.size());
    for (Target part : parts) {
      assertEquals(List.of(), differences(part, drawingOf(part, symbol).orElseThrow(), symbol));
    }
  }

  private static String twoDigits(String name) {
    return name.replaceFirst("^P0\\.(\\d)$", "P0.0$1");
  }

  /** A wrong number is found: two pins of a right drawing change places. */
  @Test
  void exchangedPins_areFound() {
    Target tiny =
        TARGETS.stream()
            .filter(target -> target.name().equals("attiny85"))
            .findFirst()
            .orElseThrow();
    Package right = tiny.packages().get(0);
    Symbol symbol = new Symbol("ATtiny85-20PU", Optional.of("PDIP-8"), drawn(right));
    List<String> pins = new ArrayList<>(right.pins());
    pins.set(4, right.pins().get(5));
    pins.set(5, right.pins().get(4));
    assertEquals(List.of(), differences(tiny, right, symbol));
    assertEquals(2, differences(tiny, new Package("PDIP-8", pins), symbol).size());
  }

  private static Map<String, Set<String>> drawn(Package drawing) {
    Map<String, Set<String>> pins = new HashMap<>();
    for (int i = 0; i < drawing.pins().size(); i++) {
      pins.put(drawing.number(i), Set.of(drawing.pins().get(i)));
    }
    return pins;
  }

  /** {@code ATSAMD21E15A-A} is an {@code ATSAMD21E15A}; the longest name that fits is meant. */
  private static Optional<Target> targetOf(Symbol symbol) {
    return TARGETS.stream()
        .filter(target -> symbol.name().startsWith(code(target)))
        .filter(target -> symbol.name().substring(code(target).length()).matches("|[-A-Z].*"))
        .max(Comparator.comparing(target -> code(target).length()));
  }

  /** Without what stands beside the part. */
  private static String code(Target target) {
    return target.title().split(" ", 2)[0];
  }

  private static Optional<Package> drawingOf(Target target, Symbol symbol) {
    return target.packages().stream()
        .filter(drawing -> symbol.packageName().equals(Optional.of(drawing.name())))
        .findFirst();
  }

  /** A function pin must stand at its number, and no function pin at the number of another pin. */
  private static List<String> differences(Target target, Package drawing, Symbol symbol) {
    List<String> differ = new ArrayList<>();
    for (int i = 0; i < drawing.pins().size(); i++) {
      String number = drawing.number(i);
      String pin = drawing.pins().get(i);
      Set<String> there = symbol.pins().getOrDefault(number, Set.of());
      boolean right =
          target.family().pins().containsKey(pin)
              ? there.contains(pin)
              : there.stream().noneMatch(target.family().pins()::containsKey);
      if (!right) {
        differ.add(
            "%s, %s, pin %s: %s here, %s in %s"
                .formatted(target.title(), drawing.name(), number, pin, there, symbol.name()));
      }
    }
    return differ;
  }
}
