package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EmitCommandTest {
  private static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";

  @TempDir private Path temp;

  private Run emit(Path folder, String target) {
    return Run.of("emit", SAMPLE, "-t", target, "-o", folder.toString());
  }

  @Test
  void firmware_isWrittenWithItsOrigin() throws IOException {
    Path folder = temp.resolve("new/firmware");
    Run run = emit(folder, "ATtiny85");
    assertEquals(ExitCode.GOOD, run.code());
    assertEquals("", run.err());
    assertTrue(
        run.out().contains(" files written, 0 unchanged, 0 kept.\nREADME.md in it"), run.out());
    assertTrue(Files.exists(folder.resolve("src/main.c")));
    JsonNode origin = new ObjectMapper().readTree(folder.resolve("ullage.json").toFile());
    assertEquals("attiny85", origin.get("target").asText());
    assertEquals("cold-store guard", origin.get("loop").get("name").asText());
  }

  @Test
  void partWithoutAPort_isNotWrittenFor() {
    Path folder = temp.resolve("none");
    Run run = Run.of("emit", SAMPLE, "-t", "efm32zg108f16", "-o", folder.toString());
    assertEquals(ExitCode.FINDINGS, run.code());
    assertEquals(
        "tight: only the limits of the part are known: it has no port yet.\nNothing was written.\n",
        run.out());
    assertFalse(Files.exists(folder));
  }

  @Test
  void again_changesNothing() {
    Path folder = temp.resolve("firmware");
    emit(folder, "attiny85");
    Run again = emit(folder, "attiny85");
    assertEquals(ExitCode.GOOD, again.code());
    assertTrue(again.out().contains(": 0 files written, "), again.out());
    assertFalse(again.out().contains("README.md in it"), again.out());
  }

  @Test
  void changedFile_staysAndTheNewTextLiesBesideIt() throws IOException {
    Path folder = temp.resolve("firmware");
    emit(folder, "attiny85");
    Path config = folder.resolve("src/config.h");
    String mine = Files.readString(config) + "/* mine */\n";
    Files.writeString(config, mine);
    Run again = emit(folder, "attiny45");
    assertEquals(ExitCode.FINDINGS, again.code());
    assertTrue(again.out().contains(" unchanged, 1 kept."), again.out());
    assertTrue(
        again
            .out()
            .contains(
                "\nsrc/config.h kept as you changed it; the new text is in src/config.h.new\n"),
        again.out());
    assertEquals(mine, Files.readString(config));
    assertTrue(Files.exists(folder.resolve("src/config.h.new")));
  }

  @Test
  void someoneElsesFolder_isLeftAlone() throws IOException {
    Path folder = Files.createDirectories(temp.resolve("photos"));
    Files.writeString(folder.resolve("cat.txt"), "a cat");
    Run run = emit(folder, "attiny85");
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertTrue(run.err().contains("choose another folder"), run.err());
    try (var files = Files.list(folder)) {
      assertEquals(1, files.count());
    }
  }

  @Test
  void targetThatLacksSomething_getsNoFolder() throws IOException {
    Path folder = temp.resolve("firmware");
    Path loop = temp.resolve("fast.yaml");
    Files.writeString(loop, Files.readString(Path.of(SAMPLE)) + "\nboard: {supply_v: 1.2}\n");
    Run run = Run.of("emit", loop.toString(), "-t", "attiny85", "-o", folder.toString());
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().startsWith("lacks: the board has 1.2 V"), run.out());
    assertTrue(run.out().endsWith("Nothing was written.\n"), run.out());
    assertFalse(Files.exists(folder));
  }

  @Test
  void unknownTarget_isWrongUseAndGetsNoFolder() {
    Path folder = temp.resolve("firmware");
    Run run = emit(folder, "attiny86");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().startsWith("There is no target `attiny86`; nearest: `attiny8"), run.err());
    assertFalse(Files.exists(folder));
  }

  @Test
  void firmwareThatDoesNotFit_isWrittenAndSaidToBeTooLarge() throws IOException {
    Path folder = temp.resolve("firmware");
    Path loop = temp.resolve("large.yaml");
    Files.writeString(loop, Files.readString(Path.of(SAMPLE)) + "\nbring: {ram_bytes: 4000}\n");
    Run run = Run.of("emit", loop.toString(), "-t", "attiny13a", "-o", folder.toString());
    assertEquals(ExitCode.FINDINGS, run.code());
    assertTrue(run.out().startsWith("over: "), run.out());
    assertTrue(
        run.out().matches("(?s).*\nIt does not fit the ATtiny13A: .*B of RAM too much.\n.*"));
    assertTrue(Files.exists(folder.resolve("src/main.c")));
  }
}
