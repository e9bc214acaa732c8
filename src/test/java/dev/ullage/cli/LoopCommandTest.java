package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.loop.LoopReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LoopCommandTest {
  private static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";

  @Test
  void goodFile_isCalledGood() {
    assertEquals(
        new Run(ExitCode.GOOD, SAMPLE + ": nothing wrong with `cold-store guard`.\n", ""),
        Run.of("loop", SAMPLE));
  }

  @Test
  void explain_printsAFileThatReadsTheSame() {
    Run run = Run.of("loop", SAMPLE, "--explain");
    assertEquals(ExitCode.GOOD, run.code());
    assertEquals(LoopReader.read(Path.of(SAMPLE)), LoopReader.read("explained", run.out()));
  }

  @Test
  void schema_isJsonAndNeedsNoFile() throws IOException {
    Run run = Run.of("loop", "--schema");
    assertEquals(ExitCode.GOOD, run.code());
    assertTrue(new ObjectMapper().readTree(run.out()).get("$schema").asText().startsWith("http"));
  }

  @Test
  void noFile_isWrongUse() {
    assertEquals(
        new Run(
            ExitCode.WRONG_USE,
            "",
            "`LOOP` is missing.\n`ullage loop --help` says how to use it.\n"),
        Run.of("loop"));
  }

  @Test
  void badFile_isAnsweredWithEveryFinding(@TempDir Path folder) throws IOException {
    Path file = folder.resolve("bad.yaml");
    Files.writeString(
        file,
        """
        loop: \u00a0
        sensor: {bus: i2c, address: 0x90}
        alarm: {wehn: above, threshold: 8}
        """);
    Run run = Run.of("loop", file.toString());
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertEquals("", run.out());
    assertTrue(run.err().contains("bad.yaml:2:29: `sensor.address` must be"), run.err());
    assertTrue(run.err().contains("bad.yaml:3:9: `alarm.wehn`"), run.err());
    assertTrue(run.err().lines().count() >= 2, run.err());
  }

  @Test
  void missingFile_isBadInput(@TempDir Path folder) {
    Path file = folder.resolve("none.yaml");
    Run run = Run.of("loop", file.toString());
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertEquals("", run.out());
    assertEquals(file + ": the file must be readable, but was not there\n", run.err());
  }

  @Test
  void folderForAFile_isBadInput(@TempDir Path folder) {
    Run run = Run.of("loop", folder.toString());
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertEquals(folder + ": the file must be readable, but was a folder\n", run.err());
  }
}
