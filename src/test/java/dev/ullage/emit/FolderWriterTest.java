package dev.ullage.emit;

import static java.nio.file.StandardCopyOption.REPLACE_EXISTING;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import dev.ullage.testing.OwnProcess;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FolderWriterTest {
  private static final String LOOP = "generated-samples/cold-store/cold-store.yaml";
  private static final String[] PATHS = {"Makefile", "src/main.c", "yours/hooks.c"};
  private static final Emission FIRST = Folder.emission("first", PATHS);
  private static final Emission SECOND = Folder.emission("second", PATHS);

  @TempDir private Path temp;

  @Test
  void newFolder_holdsTheFilesAndNothingElse() {
    Path root = temp.resolve("a/b");
    WriteResult result = write(root, FIRST);
    assertEquals(Folder.files(FIRST), Folder.filesIn(root));
    assertEquals(List.of("Makefile", "src/main.c"), result.written());
    assertEquals(List.of("yours/hooks.c"), result.created());
    assertFalse(result.needsAttention());
  }

  @Test
  void sameAgain_changesNothing() {
    write(temp, FIRST);
    WriteResult result = write(temp, FIRST);
    assertEquals(List.of(PATHS), result.unchanged());
    assertEquals(Folder.files(FIRST), Folder.filesIn(temp));
  }

  @Test
  void newText_replacesOursButNotTheUsers() {
    write(temp, FIRST);
    WriteResult result = write(temp, SECOND);
    assertEquals(List.of("Makefile", "src/main.c"), result.written());
    assertEquals("src/main.c of second\n", Folder.read(temp, "src/main.c"));
    assertEquals("yours/hooks.c of first\n", Folder.read(temp, "yours/hooks.c"));
  }

  @Test
  void changedFile_staysAndTheNewTextLandsBesideIt() {
    write(temp, FIRST);
    Folder.write(temp, "src/main.c", "mine");
    WriteResult result = write(temp, SECOND);
    assertTrue(result.needsAttention());
    assertEquals(List.of(new WriteResult.Kept("src/main.c", "src/main.c.new")), result.kept());
    assertEquals("mine", Folder.read(temp, "src/main.c"));
    assertEquals("src/main.c of second\n", Folder.read(temp, "src/main.c.new"));
  }

  @Test
  void changedNewFile_staysToo() {
    write(temp, FIRST);
    Folder.write(temp, "src/main.c", "mine");
    write(temp, SECOND);
    Folder.write(temp, "src/main.c.new", "half merged");
    WriteResult result = write(temp, Folder.emission("third", PATHS));
    assertEquals("src/main.c.new.new", result.kept().get(0).newPath());
    assertEquals("half merged", Folder.read(temp, "src/main.c.new"));
  }

  @Test
  void newTextTakenOver_isOursAgain() throws IOException {
    write(temp, FIRST);
    Folder.write(temp, "src/main.c", "mine");
    write(temp, SECOND);
    Files.delete(temp.resolve("src/main.c"));
    Files.move(temp.resolve("src/main.c.new"), temp.resolve("src/main.c"));
    WriteResult result = write(temp, Folder.emission("third", PATHS));
    assertFalse(result.needsAttention());
    assertEquals("src/main.c of third\n", Folder.read(temp, "src/main.c"));
  }

  @Test
  void newTextTakenOverAfterItWasNoLongerEmitted_isTheUsers() throws IOException {
    write(temp, FIRST);
    Folder.write(temp, "src/main.c", "mine");
    write(temp, SECOND);
    write(temp, Folder.emission("third", "Makefile"));
    Files.move(temp.resolve("src/main.c.new"), temp.resolve("src/main.c"), REPLACE_EXISTING);
    assertTrue(write(temp, Folder.emission("fourth", PATHS)).needsAttention());
    assertEquals("src/main.c of second\n", Folder.read(temp, "src/main.c"));
  }

  @Test
  void fileNoLongerEmitted_isRemovedWithItsFolder() {
    write(temp, Folder.emission("first", "Makefile", "bus/a/twi.c"));
    WriteResult result = write(temp, Folder.emission("second", "Makefile"));
    assertEquals(List.of("bus/a/twi.c"), result.removed());
    assertFalse(Files.exists(temp.resolve("bus")));
  }

  @Test
  void changedFileNoLongerEmitted_staysAndIsReportedOnce() {
    write(temp, Folder.emission("first", "Makefile", "bus/twi.c"));
    Folder.write(temp, "bus/twi.c", "mine");
    assertEquals(List.of("bus/twi.c"), write(temp, Folder.emission("second", "Makefile")).left());
    assertEquals(List.of(), write(temp, Folder.emission("third", "Makefile")).left());
    assertEquals("mine", Folder.read(temp, "bus/twi.c"));
  }

  @Test
  void filesOfTheUsers_areNeverTouched() {
    write(temp, Folder.emission("first", "Makefile", "bus/twi.c"));
    Folder.write(temp, "bus/own.c", "mine");
    Folder.write(temp, "src/extra.c", "mine as well");
    write(temp, Folder.emission("second", "Makefile", "src/extra.c"));
    assertEquals("mine", Folder.read(temp, "bus/own.c"));
    assertEquals("mine as well", Folder.read(temp, "src/extra.c"));
    assertEquals("src/extra.c of second\n", Folder.read(temp, "src/extra.c.new"));
  }

  @Test
  void deletedHook_isCreatedAgain() throws IOException {
    write(temp, FIRST);
    Files.delete(temp.resolve("yours/hooks.c"));
    assertEquals(List.of("yours/hooks.c"), write(temp, SECOND).created());
  }

  @Test
  void hookNoLongerEmitted_stays() {
    write(temp, FIRST);
    write(temp, Folder.emission("second", "Makefile"));
    assertEquals("yours/hooks.c of first\n", Folder.read(temp, "yours/hooks.c"));
  }

  @Test
  void folderOfSomeoneElse_isRefused() {
    Folder.write(temp, "holiday.txt", "mine");
    refused(temp, "one with other files", "choose another folder");
    assertEquals(Map.of("holiday.txt", "mine"), Folder.contents(temp));
  }

  @Test
  void fileInsteadOfAFolder_isRefused() {
    Folder.write(temp, "out", "mine");
    refused(temp.resolve("out"), "must be a folder, but was a file", "");
    refused(temp.resolve("out/below"), "must be a folder, but was a file", "");
    assertEquals(Map.of("out", "mine"), Folder.contents(temp));
  }

  @ParameterizedTest
  @ValueSource(strings = {"src", "src/main.c", "yours/hooks.c", "ullage.json"})
  void symbolicLink_isNeverFollowed(String path) throws IOException {
    Path root = temp.resolve("root");
    Path outside = temp.resolve("outside");
    write(root, FIRST);
    Files.move(root.resolve(path), outside);
    Files.createSymbolicLink(root.resolve(path), outside);
    Map<String, String> before = Folder.contents(temp);
    refused(root, "a symbolic link", "nothing was written");
    assertEquals(before, Folder.contents(temp));
  }

  @Test
  void linkThatLeadsNowhere_isNotWrittenThrough() throws IOException {
    Path root = temp.resolve("root");
    write(root, Folder.emission("first", "Makefile"));
    Files.createDirectory(root.resolve("src"));
    Files.createSymbolicLink(root.resolve("src/main.c"), temp.resolve("outside"));
    refused(root, "a symbolic link", "");
    assertFalse(Files.exists(temp.resolve("outside")));
  }

  @Test
  void pipeInTheWay_isRefusedAndNotReadFrom() {
    Tool.require("mkfifo");
    write(temp, Folder.emission("first", "Makefile"));
    Tool.output(temp, "mkfifo", "yours");
    refused(temp, "must be a folder, but was something else", "");
  }

  @Test
  void folderInTheWay_isRefused() {
    write(temp, Folder.emission("first", "Makefile"));
    Folder.write(temp, "src/main.c/own", "mine");
    refused(temp, "must be a plain file, but was a folder", "");
  }

  @Test
  void brokenManifest_isRefused() {
    write(temp, FIRST);
    Folder.write(temp, "ullage.json", "{}");
    refused(temp, "ullage.json: `schema` must be there, but was missing", "");
  }

  @Test
  void manifestThatPointsOutside_isRefused() {
    Path root = temp.resolve("root");
    Folder.write(temp, "victim", "src/main.c of first\n");
    write(root, FIRST);
    String json = Folder.read(root, "ullage.json").replace("src/main.c", "../victim");
    Folder.write(root, "ullage.json", json);
    refused(root, "../victim", "");
    assertTrue(Files.exists(temp.resolve("victim")));
  }

  @Test
  void secondWriterAtTheSameTime_isRefused() throws IOException {
    write(temp, FIRST);
    try (FolderLock held = FolderLock.of(temp, new RealDisk())) {
      assertTrue(held != null);
      refused(temp, "another emission is writing there", "nothing was written");
    }
    assertFalse(write(temp, SECOND).needsAttention());
  }

  @Test
  void secondProcessAtTheSameTime_isRefused() throws IOException {
    write(temp, FIRST);
    try (FolderLock held = FolderLock.of(temp, new RealDisk())) {
      assertTrue(held != null);
      String[] emit = {"emit", LOOP, "-t", "attiny85", "-o", temp.toString()};
      OwnProcess.Outcome outcome = OwnProcess.tool(List.of(), Map.of(), emit);
      assertTrue(outcome.err().contains("another emission is writing there"), outcome.err());
    }
    assertFalse(write(temp, SECOND).needsAttention());
  }

  @Test
  void folderThatNobodyMayWriteTo_isRefused() {
    refused(Path.of("/proc/ullage-test"), "free to be written", "nothing was written");
  }

  private static WriteResult write(Path root, Emission emission) {
    return new FolderWriter().write(root, emission);
  }

  private static void refused(Path root, String found, String cure) {
    String message = assertThrows(InputException.class, () -> write(root, SECOND)).getMessage();
    assertTrue(message.contains(found) && message.contains(cure), message);
  }
}
