package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BudgetCommandTest {
  private static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";

  @Test
  void parts_addUp() throws IOException {
    JsonNode budget =
        new ObjectMapper()
            .readTree(Run.of("budget", SAMPLE, "-t", "ATmega328P", "--format=json").out());
    int flash = 0;
    int ram = 0;
    for (JsonNode module : budget.get("modules")) {
      flash += module.get("flash").asInt();
      ram += module.get("ram").asInt();
    }
    int stack = 0;
    for (JsonNode step : budget.get("stack_path")) {
      stack += step.get("bytes").asInt();
    }
    assertEquals(budget.get("flash").get("likely").asInt(), flash);
    assertEquals(budget.get("ram").get("static").asInt(), ram);
    assertEquals(budget.get("ram").get("stack").asInt(), stack);
    assertTrue(flash > 0 && stack > 0);
  }

  @Test
  void partWithoutAPort_hasItsLimitsOnly() throws IOException {
    Run run = Run.of("budget", SAMPLE, "-t", "efm32zg108f16");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertEquals(
        """
        cold-store guard on EFM32ZG108F16 (cortex-m0plus), in bytes:

        tight: only the limits of the part are known: it has no port yet.
        """,
        run.out());
    JsonNode part =
        new ObjectMapper()
            .readTree(Run.of("budget", SAMPLE, "-t", "efm32zg108f16", "--format=json").out());
    assertEquals("listed", part.get("grade").asText());
    assertEquals(16384, part.get("flash").get("capacity").asInt());
    assertEquals(4096, part.get("ram").get("capacity").asInt());
  }

  @Test
  void survey_saysTheSameOfTheTarget() throws IOException {
    JsonNode budget =
        new ObjectMapper()
            .readTree(Run.of("budget", SAMPLE, "-t", "attiny85", "--format=json").out());
    String survey = Run.of("survey", SAMPLE, "--family=avr-tinyx5", "--format=json").out();
    for (JsonNode target : new ObjectMapper().readTree(survey).get("targets")) {
      if (target.get("target").asText().equals("attiny85")) {
        target.fieldNames().forEachRemaining(f -> assertEquals(target.get(f), budget.get(f), f));
        return;
      }
    }
    throw new AssertionError("No attiny85 in " + survey);
  }

  @Test
  void text_goesDownToEachByte() {
    Run run = Run.of("budget", SAMPLE, "-t", "attiny85");
    assertEquals(ExitCode.GOOD, run.code());
    for (String word : new String[] {"start-up", "together", "deepest path", "averaging window"}) {
      assertTrue(run.out().contains(word), word + " in\n" + run.out());
    }
    assertTrue(run.out().lines().allMatch(line -> line.length() <= 80), run.out());
  }

  @Test
  void tooMuch_endsWithOne(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("greedy.yaml");
    Files.writeString(file, Files.readString(Path.of(SAMPLE)) + "\nbring: {ram_bytes: 600}\n");
    Run run = Run.of("budget", file.toString(), "-t", "attiny85");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().contains("over: "), run.out());
    assertTrue(run.out().contains("but 512 B of RAM"), run.out().replaceAll("\\s+", " "));
  }

  @Test
  void noTarget_isWrongUse() {
    Run run = Run.of("budget", SAMPLE);
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertEquals(
        "`--target TARGET` is missing.\n`ullage budget --help` says how to use it.\n", run.err());
  }

  @Test
  void unknownTarget_isAnsweredWithTheNearest() {
    Run run = Run.of("budget", SAMPLE, "-t", "attiny855");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(
        run.err().startsWith("There is no target `attiny855`; nearest: `attiny85`"), run.err());
  }
}
