package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.ullage.testing.OwnProcess;
import dev.ullage.testing.Tool;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk that is full, one that is read-only, and links where a file should be. */
class FullDiskTest {
  private static final String LOOP = "generated-samples/cold-store/cold-store.yaml";
  private static final String FULL = "No space left on device";

  @TempDir private Path temp;
  private boolean mounted;

  @AfterEach
  void unmount() {
    if (mounted) {
      Tool.output(temp, "umount", disk().toString());
    }
  }

  @Test
  void emissionOnAFullDisk_changesNothing() throws IOException {
    mount("size=256k");
    Path folder = disk().resolve("firmware");
    assertEquals(ExitCode.GOOD, emit(folder, "attiny85").code());
    Files.writeString(folder.resolve("src/alarm.c"), "mine\n");
    fill();
    Map<String, String> before = files();
    Run again = emit(folder, "atmega328p");
    assertEquals(ExitCode.BAD_INPUT, again.code());
    assertTrue(again.err().contains(FULL), again.err());
    assertTrue(again.err().contains("nothing was written"), again.err());
    assertEquals(before, files());
    Run anew = emit(disk().resolve("new/folder"), "attiny85");
    assertTrue(anew.err().contains(FULL), anew.err());
    assertEquals(before, files());
    assertFalse(Files.exists(disk().resolve("new")));
  }

  @Test
  void resultsOnAFullDisk_leaveWhatWasThere() throws IOException {
    Toolchain.avr();
    Path firmware = temp.resolve("firmware");
    GrownFirmware.plain(firmware);
    mount("size=64k");
    Path result = disk().resolve("result");
    Path baseline = disk().resolve("ullage.baseline");
    Files.writeString(result, "the old result");
    Files.writeString(baseline, "the old baseline");
    fill();
    Map<String, String> before = files();
    for (String command :
        List.of(
            "survey " + LOOP + " -o " + result,
            "survey " + LOOP + " --format html -o " + disk().resolve("new.html"),
            "loop " + LOOP + " --explain -o " + result,
            "audit " + firmware + " --accept --baseline " + baseline,
            "audit " + firmware + " --picture " + result)) {
      Run run = Run.of(command.split(" "));
      assertEquals(ExitCode.WRONG_USE, run.code(), command);
      assertTrue(run.err().contains("cannot be written: " + FULL), run.err());
      assertFalse(run.err().contains("Accepted"), run.err());
      assertEquals(before, files(), command);
    }
  }

  @Test
  void readOnlyDisk_isSaidToBeOne() throws IOException {
    mount("size=1m");
    Path folder = disk().resolve("firmware");
    emit(folder, "attiny85");
    Files.writeString(disk().resolve("result"), "the old result");
    Tool.output(temp, "mount", "-o", "remount,ro", disk().toString());
    Map<String, String> before = files();
    Run again = emit(folder, "atmega328p");
    assertEquals(ExitCode.BAD_INPUT, again.code());
    assertTrue(again.err().matches("(?s).*[Rr]ead-only.*nothing was written.*"), again.err());
    Run anew = emit(disk().resolve("new"), "attiny85");
    assertTrue(anew.err().matches("(?s).*[Rr]ead-only.*nothing was written.*"), anew.err());
    Run survey = Run.of("survey", LOOP, "-o", disk().resolve("result").toString());
    assertEquals(ExitCode.WRONG_USE, survey.code());
    assertTrue(survey.err().contains("cannot be written: permission denied"), survey.err());
    assertEquals(before, files());
  }

  @Test
  void standardOutputThatIsFull_isNoSuccess() {
    Tool.requireFile(Path.of("/dev/full"), "a device that is always full");
    List<String> command =
        OwnProcess.command(List.of(), "dev.ullage.cli.Main", "survey", LOOP, "--format", "json");
    Tool.Run run = shell("exec \"$0\" \"$@\" > /dev/full", command);
    assertEquals(ExitCode.WRONG_USE.number(), run.exit(), run.output());
    assertEquals("Standard output cannot be written: " + FULL + ".\n", run.output());
    Tool.Run enough = shell("\"$0\" \"$@\" | head -c 10 > /dev/null", command);
    assertEquals("", enough.output(), "a reader that has seen enough is no failure");
  }

  @Test
  void linksAndPermissions_areKept() throws IOException {
    Path real = temp.resolve("real");
    Path link = temp.resolve("link");
    Path nowhere = temp.resolve("nowhere");
    Files.writeString(real, "old");
    Files.setPosixFilePermissions(real, PosixFilePermissions.fromString("rw-r-----"));
    Files.createSymbolicLink(link, real);
    Files.createSymbolicLink(nowhere, temp.resolve("outside"));
    assertEquals(ExitCode.GOOD, Run.of("loop", "--schema", "-o", link.toString()).code());
    assertTrue(Files.isSymbolicLink(link));
    assertTrue(Files.readString(real).startsWith("{"));
    assertEquals("rw-r-----", PosixFilePermissions.toString(Files.getPosixFilePermissions(real)));
    Run refused = Run.of("loop", "--schema", "-o", nowhere.toString());
    assertEquals(ExitCode.WRONG_USE, refused.code());
    assertTrue(refused.err().contains("a link that leads nowhere"), refused.err());
    assertTrue(Files.isSymbolicLink(nowhere) && !Files.exists(temp.resolve("outside")));
  }

  @Test
  void pipeInPlaceOfTheLock_isNotWaitedFor() {
    Tool.require("mkfifo");
    Path folder = temp.resolve("firmware");
    emit(folder, "attiny85");
    Tool.output(folder, "mkfifo", ".ullage.lock");
    Run run = emit(folder, "atmega328p");
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertTrue(
        run.err().contains(".ullage.lock") && run.err().contains("no plain file"), run.err());
  }

  private Path disk() {
    return temp.resolve("disk");
  }

  /** Leaves the test out where nobody may mount a disk: in most containers, and for most users. */
  private void mount(String options) throws IOException {
    Files.createDirectories(disk());
    String[] command = {"mount", "-t", "tmpfs", "-o", options, "none", disk().toString()};
    mounted = Tool.isThere("mount") && Tool.run(temp, command).exit() == 0;
    assumeTrue(mounted, "no right to mount a small disk");
  }

  private void fill() {
    Tool.Run run = shell("cat /dev/zero > \"$0\"", List.of(disk().resolve("filling").toString()));
    assertTrue(run.output().contains("No space left"), run.output());
  }

  private Tool.Run shell(String script, List<String> arguments) {
    List<String> command = new java.util.ArrayList<>(List.of("sh", "-c", script));
    command.addAll(arguments);
    return Tool.run(Path.of("").toAbsolutePath(), command.toArray(String[]::new));
  }

  private static Run emit(Path folder, String part) {
    return Run.of("emit", LOOP, "-t", part, "-o", folder.toString());
  }

  private Map<String, String> files() {
    try (Stream<Path> all = Files.walk(disk())) {
      Map<String, String> files = new TreeMap<>();
      for (Path each : all.filter(Files::isRegularFile).toList()) {
        boolean filling = each.endsWith("filling");
        files.put(disk().relativize(each).toString(), filling ? "" : Files.readString(each));
      }
      return files;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
