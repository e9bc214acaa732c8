package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.target.Package;
import dev.ullage.target.Pin;
import dev.ullage.wiring.Wirings;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Holds the wiring table of the emitted README against the emitted C and against the packages. */
class WiringAgreementTest {
  private static final Pattern ROW =
      Pattern.compile("(?m)^\\| (P\\w+) \\|([^a-z\\n]*)\\| (.*) \\|$");
  private static final Pattern DRIVEN = Pattern.compile("DDR(\\w) \\|= PORT_BIT\\((\\d)\\)");
  private static final Pattern PULLED =
      Pattern.compile("\\(PIN(\\w) & PORT_BIT\\((\\d)\\)\\) == 0");

  private static final Map<String, Role> STARTS =
      Map.of(
          "data of the sensor", Role.SDA,
          "clock of the sensor", Role.SCL,
          "middle of the potentiometer", Role.KNOB,
          "lamp", Role.LAMP,
          "sounder", Role.SOUNDER,
          "input of the relay", Role.RELAY,
          "mute button", Role.MUTE,
          "input of the receiver", Role.TRANSMIT);

  private static Map<String, String> files(Firmware firmware) {
    return Emitted.emission(firmware).files().stream()
        .collect(Collectors.toMap(EmittedFile::path, EmittedFile::text));
  }

  /** What the README says, by role. */
  private static Map<Role, MatchResult> rows(String readme) {
    Map<Role, MatchResult> rows = new EnumMap<>(Role.class);
    ROW.matcher(readme)
        .results()
        .forEach(
            row ->
                STARTS.forEach(
                    (start, role) -> {
                      if (row.group(3).startsWith(start)) {
                        rows.put(role, row);
                      }
                    }));
    return rows;
  }

  private static Set<String> pins(Pattern pattern, String... texts) {
    Set<String> pins = new TreeSet<>();
    Stream.of(texts)
        .flatMap(text -> pattern.matcher(text).results())
        .forEach(found -> pins.add("P" + found.group(1) + found.group(2)));
    return pins;
  }

  private static Set<String> named(Map<Role, MatchResult> rows, Role... roles) {
    return Stream.of(roles)
        .filter(rows::containsKey)
        .map(role -> rows.get(role).group(1))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** Those that the program sets by registers; a peripheral's pins are in the manual only. */
  @ParameterizedTest
  @ValueSource(strings = {"attiny84", "attiny828", "atmega328p", "atmega162", "atmega2560"})
  void registers_areOfThePinsInTheTable(String target) {
    Firmware firmware =
        target.equals("atmega162")
            ? Wirings.of(target, "outputs: {lamp: {active: low}, sounder: {}, relay: {}}\n")
            : Wirings.full(target);
    Map<String, String> files = files(firmware);
    Map<Role, MatchResult> rows = rows(files.get("README.md"));
    assertEquals(firmware.pins().keySet(), rows.keySet());
    assertEquals(
        named(rows, Role.LAMP, Role.SOUNDER, Role.RELAY), pins(DRIVEN, files.get("port/begin.c")));
    assertEquals(named(rows, Role.MUTE), pins(PULLED, files.get("port/port.h")));
    if (files.containsKey("bus/bus_bitbang.c")) {
      assertEquals(named(rows, Role.SDA, Role.SCL), pins(DRIVEN, files.get("bus/bus_bitbang.c")));
    }
    if (firmware.serial().isPresent() && firmware.serial().get().hardware().isEmpty()) {
      assertEquals(named(rows, Role.TRANSMIT), pins(DRIVEN, files.get("port/serial.c")));
    }
    if (rows.containsKey(Role.KNOB)) {
      Pin knob = firmware.target().family().pins().get(rows.get(Role.KNOB).group(1));
      String channel = "#define KNOB_CHANNEL " + knob.converterChannel().orElseThrow() + "u\n";
      assertTrue(files.get("src/config.h").contains(channel), channel);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"stm32f030f4", "stm32f103cb", "stm32g031k8", "stm32l053r8", "ch32v003f4p6"})
  void numbers_areOfThePinsInTheTable(String target) {
    Firmware firmware = Wirings.full(target);
    Map<String, String> files = files(firmware);
    Map<Role, MatchResult> rows = rows(files.get("README.md"));
    Map<Role, String> defined = new EnumMap<>(Role.class);
    Pattern.compile("#define PIN_(\\w+) (\\d+)u\n")
        .matcher(files.get("src/config.h"))
        .results()
        .forEach(found -> defined.put(Role.valueOf(found.group(1)), name(found.group(2))));
    Map<Role, String> shown = new EnumMap<>(Role.class);
    rows.forEach((role, row) -> shown.put(role, row.group(1)));
    assertEquals(Role.values().length, defined.size());
    assertEquals(defined, shown);
  }

  /** Ports have 16 numbers each: 0 is PA0, 17 is PB1. */
  private static String name(String number) {
    int all = Integer.parseInt(number);
    return "P" + (char) ('A' + all / 16) + all % 16;
  }

  /** Each column of numbers is that of the packages above it. */
  @ParameterizedTest
  @ValueSource(strings = {"attiny85", "attiny84a", "atmega88pa", "stm32l072kb", "ch32v003f4p6"})
  void columns_areThoseOfThePackages(String target) {
    Firmware firmware = Wirings.of(target, "");
    String readme = files(firmware).get("README.md");
    String head =
        readme.lines().filter(line -> line.startsWith("| pin |")).findFirst().orElseThrow();
    String[] titles = head.split(" \\| ");
    Map<String, Package> packages = new HashMap<>();
    firmware.target().packages().forEach(pack -> packages.put(pack.name(), pack));
    for (MatchResult row : rows(readme).values()) {
      String[] numbers = row.group(2).strip().split(" \\| ");
      for (int column = 1; column < titles.length - 1; column++) {
        for (String name : titles[column].replace("number in ", "").split(", ")) {
          Package pack = packages.get(name);
          int index = pack.pins().indexOf(row.group(1));
          String expected = index < 0 ? "-" : pack.number(index);
          assertEquals(expected, numbers[column - 1], row.group() + " in " + name);
        }
      }
    }
  }

  @Test
  void pinOfTheLoopFile_isMarked() {
    String readme = files(Wirings.of("attiny85", "board: {pins: {lamp: PB4}}\n")).get("README.md");
    assertTrue(
        readme.contains(
            "| PB4 | 3 | 5 | lamp with its resistor, to ground (pin named in the loop file) |"),
        readme);
    assertEquals(1, readme.split("named in the loop file", -1).length - 1);
  }
}
