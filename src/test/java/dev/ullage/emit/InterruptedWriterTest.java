package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A writer may be stopped at any change of the disk, and the user may do anything in between. */
class InterruptedWriterTest {
  private static final List<String> PATHS =
      List.of("Makefile", "src/main.c", "src/alarm.c", "bus/twi.c", "yours/hooks.c");
  private static final Emission FIRST =
      Folder.emission("first", "Makefile", "src/main.c", "bus/twi.c", "yours/hooks.c");
  private static final Emission SECOND =
      Folder.emission("second", "Makefile", "src/main.c", "src/alarm.c", "yours/hooks.c");
  private static final Emission THIRD =
      Folder.emission("third", "Makefile", "bus/twi.c", "src/alarm.c");
  private static final List<Emission> EMISSIONS = List.of(FIRST, SECOND, THIRD);

  @TempDir private Path temp;

  @Test
  void firstEmissionKilledAnywhere_isCompletedByTheNext() {
    for (int changes = 0; ; changes++) {
      Path root = temp.resolve("run" + changes);
      if (!killed(root, FIRST, changes)) {
        assertTrue(changes > 12, "was killed " + changes + " times only");
        return;
      }
      new FolderWriter().write(root, FIRST);
      assertEquals(Folder.files(FIRST), Folder.filesIn(root), "killed after " + changes);
    }
  }

  @Test
  void nextEmissionKilledAnywhere_isCompletedByTheOneAfter() {
    for (int changes = 0; ; changes++) {
      Path root = temp.resolve("run" + changes);
      new FolderWriter().write(root, FIRST);
      Folder.write(root, "Makefile", "mine");
      boolean killed = killed(root, SECOND, changes);
      assertEquals("mine", Folder.read(root, "Makefile"));
      WriteResult result = new FolderWriter().write(root, THIRD);
      assertEquals(1, result.kept().size(), "killed after " + changes);
      assertEquals(List.of(), result.left(), "killed after " + changes);
      Map<String, String> expected = new HashMap<>(Folder.files(THIRD));
      expected.put("Makefile.new", expected.put("Makefile", "mine"));
      expected.put("yours/hooks.c", "yours/hooks.c of first\n");
      assertEquals(expected, Folder.filesIn(root), "killed after " + changes);
      if (!killed) {
        return;
      }
    }
  }

  @Test
  void everyFileOfAKilledEmission_isTheOldOrTheNewOne() {
    for (int changes = 0; ; changes++) {
      Path root = temp.resolve("run" + changes);
      new FolderWriter().write(root, FIRST);
      boolean killed = killed(root, SECOND, changes);
      String main = Folder.read(root, "src/main.c");
      assertTrue(List.of("src/main.c of first\n", "src/main.c of second\n").contains(main));
      if (!killed) {
        return;
      }
    }
  }

  @Test
  void refusalBeforeTheFirstMove_changesNothing() {
    for (int changes = 0; ; changes++) {
      Path root = temp.resolve("run" + changes);
      new FolderWriter().write(root, FIRST);
      Map<String, String> before = Folder.contents(root);
      FailingDisk disk = FailingDisk.refusingAfter(changes);
      FolderWriter writer = new FolderWriter(disk);
      String message =
          assertThrows(InputException.class, () -> writer.write(root, SECOND)).getMessage();
      assertTrue(message.contains("No space left on device"), message);
      if (message.contains("run it again")) {
        assertTrue(changes >= 4, "one folder and three texts come before the first move");
        return;
      }
      assertEquals(before, Folder.contents(root));
    }
  }

  @Test
  void refusalInANewFolder_leavesNoFolder() {
    Path root = temp.resolve("a/b");
    FolderWriter writer = new FolderWriter(FailingDisk.refusingAfter(4));
    assertThrows(InputException.class, () -> writer.write(root, FIRST));
    assertEquals(Map.of(), Folder.contents(temp));
  }

  /** Something that happens to a folder. */
  sealed interface Event {
    record Emit(int emission) implements Event {}

    record KilledEmit(int emission, int changes) implements Event {}

    record UserWrites(String path) implements Event {}

    record UserDeletes(String path) implements Event {}

    record UserTakesNewText(String path) implements Event {}
  }

  @Provide
  Arbitrary<List<Event>> events() {
    Arbitrary<String> path =
        Arbitraries.of(PATHS)
            .flatMap(
                p ->
                    Arbitraries.frequencyOf(
                        Tuple.of(3, Arbitraries.just(p)),
                        Tuple.of(1, Arbitraries.just(p + ".new"))));
    Arbitrary<Integer> emission = Arbitraries.integers().between(0, 2);
    Arbitrary<Event> event =
        Arbitraries.oneOf(
            emission.map(Event.Emit::new),
            Combinators.combine(emission, Arbitraries.integers().between(0, 16))
                .as(Event.KilledEmit::new),
            path.map(Event.UserWrites::new),
            path.map(Event.UserDeletes::new),
            Arbitraries.of(PATHS).map(Event.UserTakesNewText::new));
    return event.list().ofMaxSize(12);
  }

  @Property(tries = 500)
  void nothingOfTheUsersIsEverLost(@ForAll("events") List<Event> events) throws IOException {
    Path root = Files.createTempDirectory("interrupted");
    new FolderWriter().write(root, FIRST);
    Map<String, String> mine = new HashMap<>();
    int number = 0;
    for (Event event : events) {
      happens(root, event, mine, number++);
      mine.forEach((path, text) -> assertEquals(text, Folder.read(root, path)));
    }
    new FolderWriter().write(root, SECOND);
    mine.forEach((path, text) -> assertEquals(text, Folder.read(root, path)));
    assertComplete(root, mine);
    Folder.delete(root);
  }

  private static void happens(Path root, Event event, Map<String, String> mine, int number) {
    if (event instanceof Event.Emit emit) {
      new FolderWriter().write(root, EMISSIONS.get(emit.emission()));
    } else if (event instanceof Event.KilledEmit emit) {
      killed(root, EMISSIONS.get(emit.emission()), emit.changes());
    } else if (event instanceof Event.UserWrites write) {
      mine.put(write.path(), "text " + number + " of the user's");
      Folder.write(root, write.path(), mine.get(write.path()));
    } else if (event instanceof Event.UserDeletes delete) {
      mine.remove(delete.path());
      delete(root, delete.path());
    } else if (event instanceof Event.UserTakesNewText take) {
      takeNewText(root, take.path(), mine);
    }
  }

  private static void takeNewText(Path root, String path, Map<String, String> mine) {
    Path newText = root.resolve(path + ".new");
    if (!Files.exists(newText)) {
      return;
    }
    String text = Folder.read(root, path + ".new");
    boolean ours = isListed(root, path, text);
    // What we do not know to be ours any more is the user's, and so is what was written there.
    mine.remove(path);
    mine.remove(path + ".new");
    if (!ours) {
      text += "adapted";
      mine.put(path, text);
    }
    Folder.write(root, path, text);
    delete(root, path + ".new");
  }

  private static boolean isListed(Path root, String path, String text) {
    byte[] json = Folder.read(root, Manifest.FILE).getBytes(StandardCharsets.UTF_8);
    String hash = Hash.of(text.getBytes(StandardCharsets.UTF_8));
    return hash.equals(ManifestReader.read(Manifest.FILE, json).hashes().get(path));
  }

  /** What is not the user's is the emission's, to the byte; and nothing of the work remains. */
  private static void assertComplete(Path root, Map<String, String> mine) {
    Map<String, String> files = Folder.filesIn(root);
    assertEquals(SECOND.manifest().toJson(), files.get(Manifest.FILE));
    for (EmittedFile file : SECOND.files()) {
      if (file.policy() == EmittedFile.Policy.ONCE) {
        assertTrue(files.containsKey(file.path()));
      } else if (mine.containsKey(file.path())) {
        assertTrue(hasNewText(files, file), () -> file.path() + " in " + files);
      } else {
        assertEquals(file.text(), files.get(file.path()), file.path());
      }
    }
    assertEquals(mine.containsKey("bus/twi.c"), files.containsKey("bus/twi.c"));
    assertFalse(Folder.contents(root).keySet().stream().anyMatch(name -> name.startsWith(".")));
  }

  private static boolean hasNewText(Map<String, String> files, EmittedFile file) {
    return files.entrySet().stream()
        .anyMatch(
            entry ->
                entry.getKey().matches(Pattern.quote(file.path()) + "(\\.new)+")
                    && entry.getValue().equals(file.text()));
  }

  private static boolean killed(Path root, Emission emission, int changes) {
    try {
      new FolderWriter(FailingDisk.killedAfter(changes)).write(root, emission);
      return false;
    } catch (FailingDisk.Killed e) {
      return true;
    }
  }

  private static void delete(Path root, String path) {
    try {
      Files.deleteIfExists(root.resolve(path));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
