package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import dev.ullage.input.InputException;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ListedReaderTest {
  private static final String FILE =
      """
      family: pebble
      title: Pebble
      grade: listed
      core: cortex-m0
      sources: {flash: pack, ram: pack kicad, clock: sheet}
      clocks:
        slow: {max_hz: 24000000, supply_v: 1.8 3.6}
      targets:
        pebble1: {title: Pebble1, flash: 8192, ram: 1024, clock: slow}
        pebble2: {title: Pebble2, flash: external, ram: 0x800, eeprom: 0, two_wire: none, sources: {eeprom: sheet, two_wire: svd, ram: riot}}
      """;

  private static final Commons NONE = new Commons(java.util.Map.of(), java.util.Map.of());

  private static ListedPart part(int number) {
    return (ListedPart) FamilyReader.read("pebble.yaml", FILE, NONE).get(number);
  }

  @Test
  void whatIsNotStated_isUnknownAndNotNone() {
    ListedPart part = part(0);
    assertEquals(OptionalInt.empty(), part.eeprom());
    assertEquals(Optional.empty(), part.busKind());
    assertEquals(List.of(), part.packageNames());
    assertEquals(24_000_000, part.rating().orElseThrow().maxHz());
  }

  @Test
  void noneAndNothing_areStatedAsSuch() {
    ListedPart part = part(1);
    assertEquals(OptionalInt.of(0), part.eeprom());
    assertEquals(Optional.of(BusPort.Kind.NONE), part.busKind());
    assertEquals(Optional.empty(), part.rating());
  }

  @Test
  void externalFlash_isNoCapacity() {
    assertEquals(OptionalInt.empty(), part(1).flash());
    assertEquals(2048, part(1).ram());
  }

  @Test
  void sources_areThoseOfTheFamilyUnlessThePartHasItsOwn() {
    assertEquals("pack kicad", part(0).sources().get("ram"));
    assertEquals("riot", part(1).sources().get("ram"));
    assertEquals("pack", part(1).sources().get("flash"));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "flash: 8192      | flash: much               | targets.pebble1.flash | much",
        "ram: 1024        | rom: 1024                 | targets.pebble1.ram   | missing",
        "grade: listed    | grade: measured           | grade                 | measured",
        "clock: slow}     | clock: fast}              | targets.pebble1.clock | fast",
        "two_wire: none   | two_wire: some            | targets.pebble2.two_wire | some",
        "clock: slow}     | clock: slow, eeprom: 64}  | targets.pebble1.eeprom | no source",
        "supply_v: 1.8 3.6| supply_v: 1.8             | clocks.slow.supply_v  | 1 voltages"
      })
  void mistake_isFoundWithItsPlace(String good, String bad, String key, String found) {
    String wrong = FILE.replace(good, bad);
    InputException thrown =
        assertThrows(InputException.class, () -> FamilyReader.read("pebble.yaml", wrong, NONE));
    assertEquals(
        Optional.of(found),
        thrown.findings().stream()
            .filter(finding -> finding.key().equals(key))
            .map(finding -> finding.found())
            .findFirst(),
        thrown.getMessage());
  }
}
