package dev.ullage.wiring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.target.Package;
import dev.ullage.wiring.PinUse.Kind;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

class PinMapTest {
  private static final String CRYSTAL = "board: {clock_hz: 16000000, supply_v: 5}\n";

  /** Pins whose circuit the data sheet alone draws; any other must be known here. */
  private static final Set<String> LEFT_TO_THE_DATA_SHEET =
      Set.of("LSW", "VBAT", "DEC1", "DEC2", "VINTA");

  private static PinUse pin(Firmware firmware, String name) {
    return PinMap.of(firmware).get(0).pins().stream()
        .filter(pin -> pin.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** By hand, from the data sheet's page of pinouts and the order in which pins are handed out. */
  @Test
  void eightPins_areWhatTheDataSheetAndThePlanSay() {
    List<String> pins =
        PinMap.of(Wirings.of("attiny85", "")).get(0).pins().stream()
            .map(pin -> pin.number() + " " + pin.name() + " " + pin.label())
            .toList();
    assertEquals(
        List.of(
            "1 PB5 reset",
            "2 PB3 free",
            "3 PB4 free",
            "4 GND ground",
            "5 PB0 lamp",
            "6 PB1 bus data",
            "7 PB2 bus clock",
            "8 VCC supply"),
        pins);
  }

  @Test
  void everyPackage_hasItsPinsOnceInOrder() {
    int packages = 0;
    for (Firmware firmware : (Iterable<Firmware>) Wirings.all()::iterator) {
      List<PinMap> maps = PinMap.of(firmware);
      assertEquals(firmware.target().packageNames(), maps.stream().map(PinMap::pack).toList());
      for (int i = 0; i < maps.size(); i++) {
        PinMap map = maps.get(i);
        String where = map.part() + " " + map.pack();
        Package sold = firmware.target().packages().get(i);
        assertEquals(sold.pins(), map.leads().stream().map(PinUse::name).toList(), where);
        Set<String> numbers = new HashSet<>();
        map.pins().forEach(pin -> assertTrue(numbers.add(pin.number()), where + pin));
        packages++;
      }
    }
    assertTrue(packages > 500, packages + " packages");
  }

  /** Together with those that are not led out, the roles at the pins are the plan's. */
  @Test
  void everyPackage_hasTheRolesOfThePlan() {
    for (Firmware firmware : (Iterable<Firmware>) Wirings.all()::iterator) {
      for (PinMap map : PinMap.of(firmware)) {
        Map<Role, String> seen = new EnumMap<>(Role.class);
        map.pins().forEach(pin -> pin.role().ifPresent(role -> seen.put(role, pin.name())));
        map.missing().forEach(role -> seen.put(role, firmware.pins().get(role).name()));
        Map<Role, String> planned = new EnumMap<>(Role.class);
        firmware.pins().forEach((role, pin) -> planned.put(role, pin.name()));
        assertEquals(planned, seen, map.part() + " " + map.pack());
      }
      assertEquals(List.of(), PinMap.of(firmware).get(0).missing(), "of the default");
    }
  }

  /** No part works without; where no pin is ground, the pad below is. */
  @Test
  void everyPackage_hasSupplyAndGround() {
    List<String> lacking = new ArrayList<>();
    for (Firmware firmware : (Iterable<Firmware>) Wirings.all()::iterator) {
      for (PinMap map : PinMap.of(firmware)) {
        for (Kind kind : List.of(Kind.SUPPLY, Kind.GROUND)) {
          if (map.pins().stream().noneMatch(pin -> pin.kind() == kind)) {
            lacking.add(map.part() + " " + map.pack() + ": " + kind);
          }
        }
      }
    }
    assertEquals(List.of(), lacking);
  }

  @Test
  void everyName_isKnown() {
    Set<String> unknown = new HashSet<>();
    for (Firmware firmware : (Iterable<Firmware>) Wirings.all()::iterator) {
      for (PinMap map : PinMap.of(firmware)) {
        map.pins().stream()
            .filter(pin -> pin.label().equals("data sheet"))
            .forEach(pin -> unknown.add(pin.name()));
      }
    }
    unknown.removeAll(LEFT_TO_THE_DATA_SHEET);
    assertEquals(Set.of(), unknown);
    assertEquals("data sheet", pin(Wirings.of("attiny43u", ""), "VBAT").label());
    assertEquals("supply", pin(Wirings.of("stm32f103cb", ""), "VBAT").label());
  }

  @Test
  void namedPin_isMarked() {
    Firmware firmware = Wirings.of("attiny85", "board: {pins: {lamp: PB3}}\n");
    assertTrue(pin(firmware, "PB3").named());
    assertTrue(pin(firmware, "PB3").words().endsWith(" (pin named in the loop file)"));
    assertFalse(pin(firmware, "PB1").named());
    assertEquals(pin(firmware, "PB1").leadsTo(), pin(firmware, "PB1").words());
  }

  @Test
  void namedResetPin_isSaidToBeThat() {
    PinUse pin = pin(Wirings.of("attiny85", "board: {pins: {lamp: PB5}}\n"), "PB5");
    assertEquals(Optional.of(Role.LAMP), pin.role());
    assertTrue(pin.leadsTo().endsWith("; the pin is also for reset and debug"), pin.leadsTo());
  }

  @Test
  void crystalPins_areKeptOnlyWhereTheClockComesFromOutside() {
    assertEquals(Kind.FREE, pin(Wirings.of("attiny84", ""), "PB0").kind());
    PinUse in = pin(Wirings.of("attiny84", CRYSTAL), "PB0");
    assertEquals(Kind.EXTRA, in.kind());
    assertEquals("crystal, or a clock of 16 MHz", in.leadsTo());
    assertEquals(
        "other end of the crystal, if there is one",
        pin(Wirings.of("attiny84", CRYSTAL), "PB1").leadsTo());
    assertEquals(Kind.KEPT, pin(Wirings.of("atmega16", ""), "XTAL1").kind());
    assertEquals(
        in.leadsTo(), pin(Wirings.of("atmega16", CRYSTAL), "XTAL1").leadsTo(), "a pin of its own");
  }

  private static PinUse pin(Firmware firmware, String pack, String name) {
    return PinMap.of(firmware, pack).orElseThrow().pins().stream()
        .filter(pin -> pin.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** From memory of the pin descriptions, but that these packages have no BOOT0. */
  @Test
  void pinThatChoosesWhatIsStarted_isNotFree() {
    Firmware small = Wirings.of("stm32f042f6", "");
    assertEquals(Kind.EXTRA, pin(small, "PB8").kind());
    assertEquals("ground, so that the part starts from its flash", pin(small, "PB8").leadsTo());
    Firmware large = Wirings.of("stm32f042c6", "");
    assertEquals("boot", pin(large, "PF11").label());
    assertEquals("free", pin(large, "PB8").label());
    assertEquals("boot", pin(Wirings.of("stm32l011f4", ""), "PB9").label());
    assertEquals("free", pin(Wirings.of("stm32l031c6", ""), "LQFP-48", "PB9").label());
    assertEquals(Kind.KEPT, pin(Wirings.of("lpc812m101", ""), "TSSOP-20", "PIO0_12").kind());
    Firmware named = Wirings.of("stm32l011f4", "board: {pins: {lamp: PB9}}\n");
    assertTrue(
        pin(named, "PB9").leadsTo().endsWith("choosing what is started, low at a reset"),
        pin(named, "PB9").leadsTo());
    Wiring wiring = Wiring.of(named, PinMap.of(named).get(0));
    assertTrue(Boards.says(wiring, Remark.Weight.NOTE, "PB9, the pin of lamp, also chooses"));
  }

  @Test
  void reference_hasItsCapacitorOnlyWithTheConverter() {
    assertEquals(Kind.KEPT, pin(Wirings.of("atmega328p", ""), "AREF").kind());
    assertEquals(
        "100 nF to ground, and nothing else", pin(Wirings.full("atmega328p"), "AREF").leadsTo());
  }

  @Test
  void supply_isTheBoardsOrTheRangeOfThePart() {
    assertEquals(
        "1.8 V to 5.5 V, and 100 nF to ground", pin(Wirings.of("attiny85", ""), "VCC").leadsTo());
    Firmware firmware = Wirings.of("attiny85", "board: {supply_v: 3.30}\n");
    assertEquals("3.3 V, and 100 nF to ground", pin(firmware, "VCC").leadsTo());
  }

  /** The plan is for the first package; another may lead out less. */
  @Test
  void pinThatAnotherPackageLacks_isMissingThere() {
    Firmware firmware = Wirings.of("stm32l072kb", "board: {pins: {lamp: PB3}}\n");
    assertEquals(List.of(), PinMap.of(firmware, "lqfp-32").orElseThrow().missing());
    assertEquals(List.of(Role.LAMP), PinMap.of(firmware, "QFN-32").orElseThrow().missing());
    assertTrue(PinMap.of(firmware, "QFN-48").isEmpty());
    WiringTable.Row row = WiringTable.of(firmware).rows().get(2);
    assertEquals("PB3", row.use().name());
    assertEquals(List.of("26", "-"), row.numbers());
  }

  @Test
  void padBelow_isGroundAndComesLast() {
    PinMap map = PinMap.of(Wirings.of("stm32f030k6", "")).get(0);
    assertTrue(map.pad().isEmpty(), map.pack());
    PinMap flat = PinMap.of(Wirings.of("stm32f042k6", ""), "QFN-32").orElseThrow();
    PinUse pad = flat.pins().get(flat.pins().size() - 1);
    assertEquals("pad VSS ground", pad.number() + " " + pad.name() + " " + pad.label());
    assertEquals(32, flat.leads().size());
  }

  @Test
  void table_hasOneColumnForEachPinoutAndARowForEachName() {
    WiringTable table = WiringTable.of(Wirings.of("attiny85", ""));
    assertEquals(List.of("PDIP-8, SOIC-8", "QFN-20"), table.packages());
    List<String> rows =
        table.rows().stream()
            .map(row -> row.use().name() + " " + String.join(" / ", row.numbers()))
            .toList();
    assertEquals(
        List.of("PB1 6 / 12", "PB2 7 / 14", "PB0 5 / 11", "VCC 8 / 15", "GND 4 / 8", "PB5 1 / 1"),
        rows);
    assertEquals(List.of("PB3", "PB4"), table.free());
    assertEquals(List.of("QFN-20"), table.padded());
  }

  @Test
  void table_hasEveryNameOnce() {
    for (Firmware firmware : (Iterable<Firmware>) Wirings.all()::iterator) {
      WiringTable table = WiringTable.of(firmware);
      List<String> names = new ArrayList<>(table.free());
      table.rows().forEach(row -> names.add(row.use().name()));
      Set<String> sold = new HashSet<>();
      firmware.target().packages().forEach(pack -> sold.addAll(pack.pins()));
      sold.removeAll(Set.of("-", "NC"));
      assertEquals(sold, new HashSet<>(names), firmware.target().name());
      assertEquals(sold.size(), names.size(), firmware.target().name());
    }
  }
}
