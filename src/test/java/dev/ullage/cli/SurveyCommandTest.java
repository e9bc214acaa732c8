package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.target.Catalogue;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SurveyCommandTest {
  private static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";

  private static JsonNode json(String... args) throws IOException {
    return new ObjectMapper().readTree(Run.of(args).out());
  }

  @Test
  void survey_answersForEveryTargetOfTheCatalogue() throws IOException {
    JsonNode survey = json("survey", SAMPLE, "--format", "json");
    assertEquals("cold-store guard", survey.get("loop").asText());
    List<String> names =
        StreamSupport.stream(survey.get("targets").spliterator(), false)
            .map(target -> target.get("target").asText())
            .sorted()
            .toList();
    assertEquals(
        Catalogue.load().parts().stream().map(target -> target.name()).sorted().toList(), names);
  }

  @Test
  void numbers_addUpToTheCapacity() throws IOException {
    int checked = 0;
    for (JsonNode target : json("survey", SAMPLE, "--format", "json").get("targets")) {
      if (!target.get("grade").asText().equals("listed")) {
        JsonNode flash = target.get("flash");
        JsonNode ram = target.get("ram");
        int capacity = flash.get("capacity").asInt();
        int margin = (capacity * 5 + 99) / 100;
        assertEquals(capacity - flash.get("high").asInt() - margin, flash.get("headroom").asInt());
        assertEquals(
            ram.get("capacity").asInt() - ram.get("static").asInt() - ram.get("stack").asInt() - 16,
            ram.get("headroom").asInt());
        checked++;
      }
    }
    assertTrue(checked >= 60, checked + " targets with figures");
  }

  @Test
  void text_fitsATerminal() {
    Run run = Run.of("survey", SAMPLE);
    assertEquals(ExitCode.GOOD, run.code());
    assertEquals("", run.err());
    assertTrue(run.out().lines().allMatch(line -> line.length() <= 80), run.out());
    assertTrue(run.out().contains("Measured with "), run.out());
  }

  @Test
  void columns_letTheTableGrow() {
    assertTrue(Run.in(Map.of("COLUMNS", "120"), "survey", SAMPLE).out().contains(".."));
  }

  @Test
  void loopThatNothingHolds_endsWithOne(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("greedy.yaml");
    Files.writeString(
        file, Files.readString(Path.of(SAMPLE)) + "\nbring: {flash_bytes: 16777216}\n");
    Run run = Run.of("survey", file.toString());
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().contains("over on "), run.out());
    assertEquals("", Run.of("survey", file.toString(), "--fits").err());
  }

  @Test
  void fits_leavesOutWhatDoesNotHoldTheLoop() throws IOException {
    for (JsonNode target : json("survey", SAMPLE, "--fits", "--format=json").get("targets")) {
      assertTrue(List.of("fits", "tight").contains(target.get("verdict").asText()));
    }
  }

  @Test
  void partsWithoutAPort_areShownOnRequestOnly() {
    long listed = Catalogue.load().parts().size() - Catalogue.load().targets().size();
    Run few = Run.of("survey", SAMPLE);
    assertFalse(few.out().contains("efm32"), few.out());
    assertTrue(few.out().contains(listed + " more parts are listed only, with no port yet:"));
    Run all = Run.of("survey", SAMPLE, "--listed");
    assertTrue(all.out().lines().anyMatch(l -> l.matches("tight efm32zg108f16 .* port +listed")));
    assertTrue(all.out().contains("Without a port yet: "), all.out());
    assertFalse(all.out().contains("more parts are listed only"), all.out());
    assertTrue(all.out().lines().allMatch(line -> line.length() <= 80), all.out());
  }

  @Test
  void filters_leaveTheirShareOfListedParts() {
    String out = Run.of("survey", SAMPLE, "--package=QFN-24").out();
    assertTrue(out.contains("4 more parts are listed only, with no port yet: `--listed`"), out);
  }

  @Test
  void listedParts_haveTheirCapacityAndNoFigures() throws IOException {
    JsonNode parts = json("survey", SAMPLE, "--format=json", "--family=efm32tg11").get("targets");
    assertFalse(parts.isEmpty());
    for (JsonNode part : parts) {
      assertEquals("listed", part.get("grade").asText());
      assertEquals("tight", part.get("verdict").asText());
      assertTrue(part.get("flash").get("capacity").asInt() >= 65536);
      assertTrue(part.get("flash").get("likely").isNull());
      assertTrue(part.get("ram").get("headroom").isNull());
    }
  }

  /** Nobody can know that it fits where nothing is known but limits. */
  @Test
  void listedParts_holdNothingForCertain() {
    assertEquals(ExitCode.FINDINGS, Run.of("survey", SAMPLE, "--family=efm32zg").code());
    assertEquals(
        ExitCode.FINDINGS, Run.of("survey", SAMPLE, "--family=efm32zg", "--listed").code());
  }

  @Test
  void limits_ruleOutWhatTheyCan(@TempDir Path folder) throws IOException {
    String sample = Files.readString(Path.of(SAMPLE));
    Path file = Files.writeString(folder.resolve("a.yaml"), sample + "board: {supply_v: 5.0}\n");
    JsonNode part = json("survey", file.toString(), "--format=json", "--core=cortex-m3");
    assertEquals("lacks", part.get("targets").get(0).get("verdict").asText());
    assertEquals("voltage", part.get("targets").get(0).get("limiting").asText());
    Files.writeString(file, sample + "bring: {ram_bytes: 4000}\n");
    part = json("survey", file.toString(), "--format=json", "--core=rv32ec");
    assertEquals("over", part.get("targets").get(0).get("verdict").asText());
    assertEquals("ram", part.get("targets").get(0).get("limiting").asText());
  }

  @Test
  void smallestThatFits_comesFirst() throws IOException {
    int flash = 0;
    for (JsonNode target : json("survey", SAMPLE, "--format=json").get("targets")) {
      if (!target.get("verdict").asText().equals("fits")) {
        break;
      }
      assertTrue(target.get("flash").get("capacity").asInt() >= flash);
      flash = target.get("flash").get("capacity").asInt();
    }
    assertTrue(flash > 0, "Something fits.");
  }

  @Test
  void names_areSortedWithTheirNumbers() throws IOException {
    List<String> names =
        StreamSupport.stream(
                json("survey", SAMPLE, "--sort=name", "--format=json").get("targets").spliterator(),
                false)
            .map(target -> target.get("target").asText())
            .toList();
    assertTrue(names.indexOf("atmega8") < names.indexOf("atmega16"), names.toString());
  }

  @ParameterizedTest
  @ValueSource(strings = {"always", "never"})
  void color_isWhatWasAskedFor(String when) {
    boolean painted = Run.of("survey", SAMPLE, "--color", when).out().indexOf('\u001b') >= 0;
    assertEquals(when.equals("always"), painted);
  }

  @Test
  void badLoop_printsFindingsAndNoSurvey(@TempDir Path folder) throws IOException {
    Path file = Files.writeString(folder.resolve("bad.yaml"), "loop: x\nsensor: 3\n");
    Run run = Run.of("survey", file.toString());
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertEquals("", run.out());
    assertTrue(run.err().contains("bad.yaml:2:9: `sensor` must be"), run.err());
  }

  @Test
  void filtersThatNothingPasses_areSaidToBeThose() {
    Run run = Run.of("survey", "generated-samples/cold-store/cold-store.yaml", "--vmin", "9");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().endsWith("\nNo part of the catalogue passes the filters.\n"), run.out());
  }
}
