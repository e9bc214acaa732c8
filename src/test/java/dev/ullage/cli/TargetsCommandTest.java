package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Part;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class TargetsCommandTest {
  private static final List<Part> ALL = Catalogue.load().parts();

  @Test
  void everyTarget_isOnALineOfItsOwn() {
    Run run = Run.of("targets");
    assertEquals(ExitCode.GOOD, run.code());
    for (Part target : ALL) {
      long lines = run.out().lines().filter(line -> line.startsWith(target.name() + " ")).count();
      assertEquals(1, lines, target.name());
    }
    assertTrue(run.out().lines().allMatch(line -> line.length() <= 80), run.out());
  }

  @Test
  void json_holdsTheCatalogue() throws IOException {
    JsonNode root = new ObjectMapper().readTree(Run.of("targets", "--format", "json").out());
    assertEquals("ullage/targets/1", root.get("schema").asText());
    List<String> names =
        StreamSupport.stream(root.get("targets").spliterator(), false)
            .map(node -> node.get("target").asText())
            .toList();
    assertEquals(ALL.stream().map(Part::name).toList(), names);
    JsonNode tiny =
        new ObjectMapper().readTree(Run.of("targets", "ATtiny85", "--format=json").out());
    assertEquals(8192, tiny.get("flash").asInt());
    assertEquals(512, tiny.get("ram").asInt());
    assertEquals("usi", tiny.get("two_wire").asText());
  }

  @Test
  void csv_isReadBackByAnotherReader() throws IOException {
    String csv = Run.of("targets", "--format", "csv").out();
    try (CSVParser parser = CSVParser.parse(csv, CSVFormat.RFC4180.builder().setHeader().build())) {
      List<CSVRecord> records = parser.getRecords();
      assertEquals(ALL.size(), records.size());
      assertEquals(ALL.get(0).name(), records.get(0).get("target"));
      assertEquals("" + ALL.get(0).flash().orElseThrow(), records.get(0).get("flash"));
    }
  }

  @Test
  void sheet_namesEveryPinAndPackage() {
    Run run = Run.of("targets", "attiny13a");
    assertEquals(ExitCode.GOOD, run.code());
    for (String word : List.of("1024 B", "64 B", "PB0", "PB5", "reset", "PDIP-8", "1.2 MHz")) {
      assertTrue(run.out().contains(word), word + " in\n" + run.out());
    }
  }

  @Test
  void filters_leaveWhatTheySay() {
    String small = Run.of("targets", "--package", "dip-8", "--core=avr25").out();
    assertTrue(small.contains("attiny85"), small);
    assertFalse(small.contains("atmega"), small);
    String low = Run.of("targets", "--vmin", "0.9").out();
    assertTrue(low.contains("0 targets."), low);
  }

  @Test
  void partsWithoutAPort_areListedWithTheirLimits() {
    String out = Run.of("targets", "--family", "efm32zg").out();
    assertTrue(out.startsWith("listed "), out);
    assertTrue(
        out.contains("efm32zg108f16  efm32zg  cortex-m0plus    16K   4K       0  1.98-3.8"), out);
    assertTrue(out.contains("16 parts are listed only"), out);
    assertTrue(Run.of("targets", "--package", "dip-8").out().contains("lpc810m021"));
    assertFalse(Run.of("targets", "--vmin", "5", "--family", "efm32zg").out().contains("efm32zg"));
  }

  @Test
  void listedSheet_namesTheSourcesOfItsFacts() throws IOException {
    Run run = Run.of("targets", "EFM32ZG108F16");
    assertEquals(ExitCode.GOOD, run.code());
    assertTrue(
        run.out().contains("flash         16384 B                    locm3, riot, kicad\n"),
        run.out());
    assertTrue(run.out().contains("Listed only: these limits are all that is known."), run.out());
    JsonNode part =
        new ObjectMapper().readTree(Run.of("targets", "efm32zg108f16", "--format=json").out());
    assertTrue(part.get("listed_only").asBoolean());
    assertEquals(16384, part.get("flash").asInt());
    assertEquals("locm3", part.get("sources").get("flash").get(0).asText());
  }

  @Test
  void flashBesideThePart_isSaidToBe() {
    String sheet = Run.of("targets", "rp2040-2m").out();
    assertTrue(sheet.startsWith("RP2040 with 2 MiB of flash beside it\n"), sheet);
    assertTrue(sheet.contains("2097152 B, a chip beside it\n"), sheet);
  }

  @Test
  void whatIsNotKnown_isNotSaidToBeNone() throws IOException {
    assertTrue(Run.of("targets", "ch32v208gbu6").out().contains("two-wire bus  ? "));
    JsonNode part =
        new ObjectMapper().readTree(Run.of("targets", "ch32v208gbu6", "--format=json").out());
    assertTrue(part.get("two_wire").isNull());
    assertTrue(part.get("vectors").isNull());
  }

  @Test
  void unknownNames_areAnsweredWithTheNearest() {
    Run run = Run.of("targets", "attiny58");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().startsWith("There is no target `attiny58`; nearest: `"), run.err());
    assertTrue(run.err().contains("`attiny85`"), run.err());
    assertTrue(run.err().endsWith("`.\n`ullage targets --help` says how to use it.\n"), run.err());
    assertTrue(Run.of("targets", "--family", "avr-tinyx").err().contains("`avr-tinyx5`"));
  }

  @Test
  void check_holdsTheCatalogueAgainstTheToolchain() {
    Toolchain.avr();
    Run run = Run.of("targets", "--check", "--family=avr-tinyx5");
    assertEquals(ExitCode.GOOD, run.code());
    assertEquals(
        "These agree with the headers and device specs of avr-gcc: 3 of 3 targets.\n", run.out());
    Run other = Run.of("targets", "--check", "stm32f030f4");
    assertEquals(ExitCode.WRONG_USE, other.code());
    assertTrue(other.err().contains("none of these is one"), other.err());
  }

  @Test
  void valuesThatAreNone_areAnsweredWithWhatIsOne() {
    assertEquals(
        "`--vmin` must be a voltage such as `2.7`, but was `low`.\n"
            + "`ullage targets --help` says how to use it.\n",
        Run.of("targets", "--vmin", "low").err());
    assertEquals(
        "`--format` must be one of `text`, `json`, `csv`, `md`, but"
            + " was `xml`.\n`ullage targets --help` says how to use it.\n",
        Run.of("targets", "--format", "xml").err());
  }

  @Test
  void outputFile_isReplacedAsAWhole(@TempDir Path folder) throws IOException {
    Path file = Files.writeString(folder.resolve("parts.csv"), "an older list");
    Run run = Run.of("targets", "--format", "csv", "-o", file.toString());
    assertEquals(new Run(ExitCode.GOOD, "", ""), run);
    assertEquals(Run.of("targets", "--format", "csv").out(), Files.readString(file));
    try (var left = Files.list(folder)) {
      assertEquals(List.of(file), left.toList());
    }
  }

  @Test
  void outputFileThatCannotBe_isWrongUse(@TempDir Path folder) {
    String missing = folder.resolve("no/such.txt").toString();
    assertEquals(
        "`%s` cannot be written: its folder does not exist.\n".formatted(missing),
        Run.of("targets", "-o", missing).err().lines().findFirst().orElse("") + "\n");
    Run run = Run.of("targets", "-o", folder.toString());
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("it is a folder"), run.err());
  }
}
