package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From an emitted folder by way of a feature of the user's own to what the audit says of it. */
class AuditCommandTest {
  @TempDir private static Path shared;

  private static Path plain;
  private static Path grown;

  /** Two built folders: as emitted, and with the feature and the plain one as its baseline. */
  @BeforeAll
  static void buildBoth() throws IOException {
    plain = shared.resolve("plain");
    grown = shared.resolve("grown");
    GrownFirmware.plain(plain);
    GrownFirmware.grown(grown);
  }

  private static JsonNode audit(Path folder, String... more) throws IOException {
    List<String> line = new ArrayList<>(List.of("audit", folder.toString(), "--format", "json"));
    line.addAll(List.of(more));
    return new ObjectMapper().readTree(Run.of(line.toArray(String[]::new)).out());
  }

  /** Flash and static RAM, as {@code avr-size} has them. */
  private static int[] size(Path folder) {
    String[] words =
        Tool.output(folder, "avr-size", "build/firmware.elf").lines().toList().get(1).split("\\s+");
    int data = Integer.parseInt(words[2]);
    return new int[] {Integer.parseInt(words[1]) + data, data + Integer.parseInt(words[3])};
  }

  @Test
  void emittedFolder_isHeldAgainstItsEstimate() throws IOException {
    JsonNode audit = audit(plain);
    assertEquals("ullage/audit/1", audit.get("schema").asText());
    assertEquals("attiny85", audit.get("target").asText());
    assertEquals("avr25", audit.get("core").asText());
    assertEquals("fits", audit.get("verdict").asText());
    assertEquals(size(plain)[0], audit.get("flash").get("likely").asInt());
    assertEquals(size(plain)[1], audit.get("ram").get("static").asInt());
    JsonNode estimated = audit.get("estimated");
    assertEquals(audit.get("ram").get("static"), estimated.get("static"));
    assertEquals(audit.get("ram").get("stack"), estimated.get("stack"));
    assertTrue(audit.get("baseline").isNull());
    assertEquals(30, audit.get("measured").get("vectors").asInt(), "15 vectors of an ATtiny85");
  }

  @Test
  void addedFeature_isSeenToTheByte() throws IOException {
    JsonNode baseline = audit(grown).get("baseline");
    assertEquals(size(grown)[0] - size(plain)[0], baseline.get("flash_grew").asInt());
    assertEquals(size(grown)[1] - size(plain)[1], baseline.get("ram_grew").asInt());
    assertEquals(28, named(baseline.get("modules"), "yours/menu").get("ram").asInt());
    assertEquals(
        symbolBytes("menu_step") + 2,
        named(baseline.get("modules"), "yours/menu").get("flash").asInt(),
        "the function, and the first value of menu_last");
    assertEquals(
        symbolBytes("menu_step"), named(baseline.get("changes"), "menu_step").get("flash").asInt());
  }

  private static int symbolBytes(String symbol) {
    return Tool.output(grown, "avr-nm", "-S", "build/firmware.elf")
        .lines()
        .filter(line -> line.endsWith(" " + symbol))
        .mapToInt(line -> Integer.parseInt(line.split(" ")[1], 16))
        .sum();
  }

  private static JsonNode named(JsonNode array, String name) {
    return StreamSupport.stream(array.spliterator(), false)
        .filter(each -> each.get("name").asText().equals(name))
        .findFirst()
        .orElseThrow(() -> new AssertionError(name + " is not in " + array));
  }

  @Test
  void libraryHelper_isNamedWithItsReasonAndItsCaller() {
    String out = Run.of("audit", grown.toString()).out().replaceAll("\\s+", " ");
    assertTrue(
        out.contains(
            "came in: 40 B for a division or a remainder (__udivmodhi4), asked for by"
                + " build/yours/menu.o (__udivmodhi4). Cheaper: divide by a power of two"),
        out);
  }

  /** The ATtiny4313 has the memories, but no converter for the knob of the cold store. */
  @Test
  void partsThatLackSomething_areLeftOutWhereTheLoopIsKnown() {
    String loop = "generated-samples/cold-store/cold-store.yaml";
    String all = Run.of("audit", plain.toString(), "--format", "json").out();
    String suited = Run.of("audit", plain.toString(), "--format", "json", "--loop", loop).out();
    assertTrue(all.contains("\"attiny4313\""), all);
    assertFalse(suited.contains("\"attiny4313\""), suited);
    assertTrue(suited.contains("\"attiny84\""), suited);
  }

  /** Of a program for an unknown part no other parts are named, so nothing is said of them. */
  @Test
  void programForNoKnownPart_saysNothingOfOtherParts() {
    String elf = plain.resolve("build/firmware.elf").toString();
    assertFalse(Run.of("audit", elf).out().contains("parts that also fit"));
    assertTrue(Run.of("audit", elf, "-t", "attiny85").out().contains("parts that also fit"));
  }

  @Test
  void text_fitsATerminal() {
    String out = Run.of("audit", grown.toString()).out();
    assertTrue(out.lines().allMatch(line -> line.length() <= 80), out);
    assertTrue(out.contains("Since the baseline: flash +"), out);
  }

  @Test
  void emittingAgain_keepsTheFeatureAndTheBaseline() throws IOException {
    String before = Run.of("audit", grown.toString()).out();
    String baseline = Files.readString(grown.resolve("ullage.baseline"));
    Run again = GrownFirmware.emit(grown);
    assertEquals(ExitCode.GOOD, again.code(), again.out());
    Tool.output(grown, "make");
    assertEquals(GrownFirmware.MENU, Files.readString(grown.resolve("yours/menu.c")));
    assertEquals(baseline, Files.readString(grown.resolve("ullage.baseline")));
    assertEquals(before, Run.of("audit", grown.toString()).out());
  }

  @Test
  void anotherPart_isToldWhatIsMissing() {
    Run run = Run.of("audit", grown.toString(), "-t", "attiny13a");
    String out = run.out().replaceAll("\\s+", " ");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(out.contains("over: initialised data 2 B + other variables 53 B"), out);
    assertTrue(out.contains("margin 16 B = 94 B, but 64 B of RAM"), out);
    assertTrue(out.contains("emitted for attiny85; emit it for this part"), out);
  }

  @Test
  void partsThatWouldHoldIt_areNamed() throws IOException {
    JsonNode first = audit(grown).get("elsewhere").get(0);
    assertEquals("attiny45", first.get("target").asText(), "same registers, same package");
    assertEquals("measured", first.get("grade").asText());
    assertEquals(size(grown)[0], first.get("flash_high").asInt());
    for (JsonNode each : audit(grown).get("elsewhere")) {
      boolean measured = each.get("grade").asText().equals("measured");
      assertEquals(measured, exact(each), each.toString());
      assertTrue(each.get("core").asText().equals("avr25") || !measured, each.toString());
    }
  }

  private static boolean exact(JsonNode part) {
    return part.get("flash_low").asInt() == part.get("flash_high").asInt();
  }

  @Test
  void limits_endWithOne() {
    Run flash = Run.of("audit", grown.toString(), "--max-flash", "900", "--brief");
    assertEquals(ExitCode.FINDINGS, flash.code());
    int above = size(grown)[0] - 900;
    assertTrue(flash.out().contains("B, " + above + " B above --max-flash"), flash.out());
    Run growth = Run.of("audit", grown.toString(), "--max-growth", "50", "--brief");
    assertEquals(ExitCode.FINDINGS, growth.code());
    assertTrue(growth.out().contains("growth of flash is "), growth.out());
    assertFalse(growth.out().contains("growth of RAM"), growth.out());
    assertEquals(ExitCode.GOOD, Run.of("audit", grown.toString(), "--max-growth=999").code());
    assertEquals(1, growth.out().lines().count());
  }

  @Test
  void growthWithoutABaseline_isWrongUse() {
    Run run = Run.of("audit", plain.toString(), "--max-growth", "10");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("`--accept` writes one"), run.err());
  }

  @Test
  void accepted_isNoGrowth(@TempDir Path temp) throws IOException {
    String file = temp.resolve("accepted.txt").toString();
    Run accepted = Run.of("audit", grown.toString(), "--baseline", file, "--accept");
    assertEquals(ExitCode.GOOD, accepted.code());
    assertTrue(accepted.err().contains("Accepted as the baseline"), accepted.err());
    JsonNode baseline = audit(grown, "--baseline", file).get("baseline");
    assertEquals(0, baseline.get("flash_grew").asInt());
    assertEquals(0, baseline.get("changes").size());
  }

  @Test
  void baselineThatCannotBeWritten_isWrongUse(@TempDir Path temp) {
    String file = temp.resolve("nowhere/accepted.txt").toString();
    Run run = Run.of("audit", grown.toString(), "--baseline", file, "--accept");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("its folder does not exist"), run.err());
  }

  @Test
  void namedBaselineThatIsNotThere_isABadInput(@TempDir Path temp) {
    String file = temp.resolve("accepted.txt").toString();
    Run run = Run.of("audit", grown.toString(), "--baseline", file);
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertTrue(run.err().contains("`--accept` writes one"), run.err());
  }

  @Test
  void loopFile_bringsItsMarginAndWhatThePartLacks(@TempDir Path temp) throws IOException {
    Path loop = temp.resolve("loop.yaml");
    String sample = Files.readString(Path.of(GrownFirmware.SAMPLE));
    Files.writeString(loop, sample + "\nmargin: {flash_percent: 90, ram_bytes: 3}\n");
    JsonNode audit = audit(plain, "--loop", loop.toString());
    assertEquals("tight", audit.get("verdict").asText());
    assertEquals(7373, audit.get("margin").get("flash").asInt(), "90 % of 8192, rounded up");
    assertEquals(3, audit.get("margin").get("ram").asInt());
    Files.writeString(loop, sample + "\nboard: {supply_v: 1.2}\n");
    JsonNode lacking = audit(plain, "--loop", loop.toString());
    assertEquals("lacks", lacking.get("verdict").asText());
    assertEquals("voltage", lacking.get("limiting").asText());
  }

  @Test
  void otherFormats_holdTheSameFigures(@TempDir Path temp) throws IOException {
    String flash = "" + size(grown)[0];
    String page = Run.of("audit", grown.toString(), "--format", "md").out();
    assertTrue(page.contains("| flash | " + flash + " |"), page);
    String sheet = Run.of("audit", grown.toString(), "--format", "csv").out();
    int sum =
        sheet
            .lines()
            .filter(line -> line.startsWith("symbol,"))
            .mapToInt(line -> Integer.parseInt(line.split(",")[3]))
            .sum();
    assertEquals(size(grown)[0], sum);
    Path picture = temp.resolve("map.svg");
    Run.of("audit", grown.toString(), "--picture", picture.toString());
    assertTrue(Files.readString(picture).contains("yours/menu"), "a module of the picture");
  }

  @Test
  void elfFileAlone_isAuditedAgainstANamedPart() throws IOException {
    Path program = grown.resolve("build/firmware.elf");
    JsonNode audit = audit(program, "-t", "attiny85");
    assertEquals(size(grown)[0], audit.get("flash").get("likely").asInt());
    assertTrue(audit.get("estimated").isNull());
    JsonNode unnamed = audit(program);
    assertTrue(unnamed.get("target").isNull() && unnamed.get("elsewhere").isEmpty());
    JsonNode other = audit(program, "-t", "atmega328p");
    assertEquals("modelled", other.get("grade").asText());
    assertTrue(other.get("notes").toString().contains("built for avr25"), other.toString());
  }

  /** An ELF file for ARM does not say which core it is for; the folder that it lies in does. */
  @Test
  void folderForACortexPart_isOfItsCore(@TempDir Path temp) throws IOException {
    Tool.require("make", "arm-none-eabi-gcc");
    Path folder = temp.resolve("firmware");
    Run.of("emit", GrownFirmware.SAMPLE, "-t", "stm32f030f4", "-o", folder.toString());
    Tool.output(folder, "make");
    JsonNode audit = audit(folder);
    assertEquals("measured", audit.get("grade").asText());
    assertFalse(audit.get("notes").toString().contains("built for"), audit.toString());
    assertEquals("stm32f031f4", audit.get("elsewhere").get(0).get("target").asText());
    JsonNode alone = audit(folder.resolve("build/firmware.elf"), "-t", "stm32f030f4");
    assertTrue(alone.get("notes").toString().contains("not for which core"), alone.toString());
    assertFalse(alone.get("elsewhere").isEmpty());
    JsonNode other = audit(folder, "-t", "attiny85");
    assertEquals("modelled", other.get("grade").asText());
    assertTrue(other.get("notes").toString().contains("built for arm, and"), other.toString());
  }

  @Test
  void folderWithoutAProgram_isABadInput(@TempDir Path temp) {
    GrownFirmware.emit(temp.resolve("firmware"));
    Run run = Run.of("audit", temp.resolve("firmware").toString());
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertTrue(run.err().contains("must be one with a linked program"), run.err());
    assertTrue(run.err().contains("build it first"), run.err());
  }
}
