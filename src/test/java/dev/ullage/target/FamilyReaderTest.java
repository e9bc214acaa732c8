package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FamilyReaderTest {
  private static final Path FILE = Path.of("targets/avr-tinyx5.yaml");
  private static final Commons COMMONS = commons();

  @Test
  void flashBesideThePart_isACapacityAllTheSame() throws IOException {
    String text = Files.readString(FILE);
    Target beside = read(text.replace("flash: 8192", "flash: 8192 external")).get(2);
    assertEquals(8192, beside.flashBytes());
    assertTrue(beside.flashBeside());
    assertFalse(read(text).get(2).flashBeside());
  }

  @Test
  void lettersOfAWord_areNoPort() {
    Target part = Catalogue.load().target("rp2040-2m").orElseThrow();
    assertEquals(29, part.family().pins().get("GPIO29").number());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        // what stands there | what is put there | the finding: key, found
        "port: avr            | porte: avr           | port        | missing",
        "port: avr            | port: avr{nl}colour: red | colour   | unknown",
        "flash: 8192          | flash: many          | targets.attiny85.flash | many",
        "flash: 8192          | flash: {size: 8192}  | targets.attiny85.flash | a mapping of keys"
            + " to values",
        "core: avr25, stack_pointer_bits: 16, flash: 8192 | stack_pointer_bits: 16, flash: 8192 |"
            + " targets.attiny85.core | missing",
        "kind: usi            | kind: uzi            | two_wire.kind | uzi",
        "prescaler: true      | prescaler: yes       | clocks.all.prescaler | yes",
        "clock: all, packages: PDIP-8 SOIC-8 TSSOP-8 | clock: any, packages: PDIP-8 |"
            + " targets.attiny45.clock | any",
        "SOIC-8: PB5 PB3      | SOIC-8: PB5 A2=PB3   | packages.SOIC-8 | PB5 A2=PB3 PB4 GND PB0 PB1"
            + " PB2 VCC",
        "packages: PDIP-8 SOIC-8 TSSOP-8 | packages: PDIP-9 SOIC-8 | targets.attiny45.packages |"
            + " PDIP-9 SOIC-8 QFN-20",
        "at: PB0, register: TCCR0A | at: af=1, register: TCCR0A | timers[0].toggle.at | af=1",
        "setting: avr-watchdog| setting: avr-watchdgo | watchdog.setting | avr-watchdgo",
        "clock_select: CS0 1 8| clock_select: CS0 one| timers[0].clock_select | CS0 one 64 256"
            + " 1024",
        "clock_select: CS0 1 8| clock_select: 1:0 8| timers[0].clock_select | 1:0 8 64 256 1024",
        "- PB1                | - PX9                | pins        | PX9",
        "- PB2 channel=1 scl  | - PB2 channel=1 slc  | pins        | PB2 channel=1 slc",
        "- PB2 channel=1 scl  | - PB1                | pins        | PB1 twice",
        "supply_v: 1.8 5.5    | supply_v: 1.8        | clocks.all.supply_v | 1 voltages",
        "grades: {1.8: 4000000| grades: {low: 4000000| clocks.all.grades.low | no number"
      })
  void mistake_isFoundWithItsPlace(String good, String bad, String key, String found)
      throws IOException {
    String text = Files.readString(FILE);
    String wrong = text.replace(good, bad.replace("{nl}", "\n"));
    InputException thrown = assertThrows(InputException.class, () -> read(wrong));
    int line = firstDifference(text, wrong);
    assertEquals(
        List.of("tinyx5.yaml", key, found),
        thrown.findings().stream()
            .filter(finding -> finding.key().equals(key))
            .findFirst()
            .map(finding -> List.of(finding.file(), finding.key(), finding.found()))
            .orElse(List.of(thrown.getMessage())));
    if (!found.equals("missing") && !key.equals("pins")) {
      assertEquals(line, thrown.findings().get(0).line(), thrown.getMessage());
    }
  }

  @Test
  void balls_areReadWithTheirPins() throws IOException {
    String grid = Files.readString(FILE).replace("SOIC-8: PB5 PB3 PB4 GND", "SOIC-8: B1=PB5 B10=-");
    grid = grid.replaceAll("(SOIC-8: B1=PB5 B10=-).*", "$1");
    Package sold = read(grid).get(0).packages().get(1);
    assertEquals(new Package("SOIC-8", List.of("PB5", "-"), List.of("B1", "B10")), sold);
    assertEquals(
        List.of("B10", "2"), List.of(sold.number(1), new Package("", sold.pins()).number(1)));
  }

  @Test
  void severalMistakes_areAllFound() throws IOException {
    String wrong =
        Files.readString(FILE)
            .replace("flash: 2048", "flash: x")
            .replace("flash: 4096", "flash: y");
    InputException thrown = assertThrows(InputException.class, () -> read(wrong));
    assertEquals(2, thrown.findings().size(), thrown.getMessage());
  }

  @Test
  void missingMapping_isOneFinding() throws IOException {
    String wrong = Files.readString(FILE).replaceAll("(?m)^sleep: .*$", "# no sleep");
    InputException thrown = assertThrows(InputException.class, () -> read(wrong));
    assertEquals("sleep", thrown.findings().get(0).key());
    assertEquals(1, thrown.findings().size(), thrown.getMessage());
  }

  @Test
  void misspeltKey_isToldTheNearest() throws IOException {
    String wrong = Files.readString(FILE).replace("clocks:", "clocs:");
    InputException thrown = assertThrows(InputException.class, () -> read(wrong));
    assertTrue(
        thrown.findings().stream()
            .anyMatch(finding -> finding.cure().equals(Optional.of("did you mean clocks"))),
        thrown.getMessage());
  }

  @Test
  void bits_areComposedFromTheirValue() throws IOException {
    Family family = read(Files.readString(FILE)).get(0).family();
    assertEquals("(1 << CS01) | (1 << CS00)", family.timers().get(0).clockSelect().get(64));
    assertEquals("(1 << CS02)", family.timers().get(0).clockSelect().get(256));
    assertEquals("(1 << CS13) | (1 << CS10)", family.timers().get(1).clockSelect().get(256));
  }

  private static Commons commons() {
    try {
      return Commons.read("cores.yaml", Files.readString(Path.of("targets/cores.yaml")));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<Target> read(String yaml) {
    return FamilyReader.read("tinyx5.yaml", yaml, COMMONS).stream()
        .map(Target.class::cast)
        .toList();
  }

  private static int firstDifference(String one, String other) {
    List<String> a = one.lines().toList();
    List<String> b = other.lines().toList();
    int line = 0;
    while (a.get(line).equals(b.get(line))) {
      line++;
    }
    return line + 1;
  }
}
