package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.OwnProcess;
import dev.ullage.testing.Toolchain;
import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Processes that do nothing but write, killed at random moments as a power cut or an impatient user
 * would, alone and beside each other: what they wrote is one whole thing or the other, and what the
 * user wrote is still there.
 */
class KilledProcessTest {
  private static final int KILLS = Integer.getInteger("ullage.kills", 3);
  private static final int LONGEST_MILLIS = 150;
  private static final String LOOP = "generated-samples/cold-store/cold-store.yaml";

  private final Random random = new Random(7);
  private final List<Process> running = new ArrayList<>();

  @TempDir private Path temp;

  @AfterEach
  void endAll() {
    running.forEach(each -> each.toHandle().destroyForcibly());
  }

  @Test
  void emission_isCompletedByTheNextAndKeepsWhatTheUserWrote() throws IOException {
    Path folder = temp.resolve("firmware");
    String small = "emit " + LOOP + " -t attiny85 -o " + folder;
    String large = "emit " + LOOP + " -t atmega328p -o " + folder;
    Map<String, String> first = emitted("attiny85");
    Map<String, String> second = emitted("atmega328p");
    run(small);
    Files.writeString(folder.resolve("src/alarm.c"), "my own alarm\n");
    Files.writeString(folder.resolve("yours/hooks.h"), "my hooks\n");
    Files.writeString(folder.resolve("yours/more.c"), "my file\n");
    for (int kill = 0; kill < KILLS; kill++) {
      killAtRandom(large, small);
      for (Map.Entry<String, String> file : files(folder).entrySet()) {
        String name = file.getKey();
        boolean mine = name.equals("src/alarm.c") || name.startsWith("yours/");
        if (!mine && !name.startsWith(".ullage") && !name.endsWith(".new")) {
          Set<String> whole = new HashSet<>();
          whole.add(first.get(name));
          whole.add(second.get(name));
          assertTrue(whole.contains(file.getValue()), name + " is neither the one nor the other");
        }
      }
    }
    run(small);
    Map<String, String> expected = new TreeMap<>(first);
    expected.put("src/alarm.c.new", first.get("src/alarm.c"));
    expected.put("src/alarm.c", "my own alarm\n");
    expected.put("yours/hooks.h", "my hooks\n");
    expected.put("yours/more.c", "my file\n");
    assertEquals(expected, files(folder));
  }

  @Test
  void twoEmissionsAtOnce_areOneAfterTheOther() throws IOException {
    Path folder = temp.resolve("firmware");
    String small = "emit " + LOOP + " -t attiny85 -o " + folder;
    String large = "emit " + LOOP + " -t atmega328p -o " + folder;
    run(small);
    BufferedReader one = start(small);
    BufferedReader other = start(large);
    assertEquals("going", one.readLine());
    assertEquals("going", other.readLine());
    pause(3 * LONGEST_MILLIS);
    running.forEach(each -> each.toHandle().destroyForcibly());
    assertEquals(null, one.readLine());
    assertEquals(null, other.readLine());
    run(small);
    assertEquals(emitted("attiny85"), files(folder));
  }

  @Test
  void acceptedBaseline_isTheOldOrTheNewOne() throws IOException {
    Toolchain.avr();
    Path grown = temp.resolve("grown");
    Path plain = temp.resolve("plain");
    GrownFirmware.grown(grown);
    GrownFirmware.plain(plain);
    Path file = temp.resolve("kept/ullage.baseline");
    Files.createDirectories(file.getParent());
    Set<String> whole = new HashSet<>();
    String accept = "audit %s --accept --baseline " + file;
    for (Path each : List.of(grown, plain)) {
      run(accept.formatted(each));
      whole.add(Files.readString(file));
    }
    assertEquals(2, whole.size());
    for (int kill = 0; kill < KILLS; kill++) {
      if (kill == 0) {
        start(accept.formatted(plain)); // two at once
      }
      killAtRandom(accept.formatted(grown), accept.formatted(plain));
      assertTrue(whole.contains(Files.readString(file)), "killed " + kill);
      assertOnlyParts(file);
    }
  }

  @Test
  void resultInAFile_isTheOldOrTheNewOne() throws IOException {
    Path file = temp.resolve("kept/result");
    Files.createDirectories(file.getParent());
    Set<String> whole = new HashSet<>();
    // Little work but to write.
    String filled = "loop " + LOOP + " --explain -o " + file;
    String schema = "loop --schema -o " + file;
    for (String each : List.of(filled, schema)) {
      run(each);
      whole.add(Files.readString(file));
    }
    assertEquals(2, whole.size());
    for (int kill = 0; kill < KILLS; kill++) {
      if (kill == 0) {
        start(schema); // two at once
      }
      killAtRandom(filled, schema);
      assertTrue(whole.contains(Files.readString(file)), "killed " + kill);
      assertOnlyParts(file);
    }
  }

  /** A killed writer leaves the text that it had begun at most, hidden and beside the file. */
  private static void assertOnlyParts(Path file) {
    String name = file.getFileName().toString();
    for (String each : files(file.getParent()).keySet()) {
      assertTrue(each.equals(name) || each.matches("\\.ullage-[-0-9a-f]{36}\\.part"), each);
    }
  }

  private static void run(String command) {
    Run run = Run.of(command.split(" "));
    assertTrue(run.code() == ExitCode.GOOD || run.code() == ExitCode.FINDINGS, run.err());
  }

  private Map<String, String> emitted(String part) {
    Path folder = temp.resolve(part);
    run("emit " + LOOP + " -t " + part + " -o " + folder);
    return files(folder);
  }

  private BufferedReader start(String... commands) throws IOException {
    String all = String.join(" ; ", commands);
    Process process =
        new ProcessBuilder(OwnProcess.command(List.of(), Looper.class.getName(), all))
            .redirectErrorStream(true)
            .start();
    running.add(process);
    return process.inputReader();
  }

  /** Kills it, and all that was started beside it, when it is at work. */
  private void killAtRandom(String... commands) throws IOException {
    BufferedReader out = start(commands);
    assertEquals("going", out.readLine());
    pause(random.nextInt(LONGEST_MILLIS));
    running.forEach(each -> each.toHandle().destroyForcibly());
    assertEquals(null, out.readLine());
    for (Process each : running) {
      each.onExit().join();
    }
    running.clear();
  }

  private static void pause(int millis) {
    try {
      Thread.sleep(millis);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** All files below a folder, by their paths. */
  private static Map<String, String> files(Path folder) {
    try (Stream<Path> all = Files.walk(folder)) {
      Map<String, String> files = new TreeMap<>();
      for (Path each : all.filter(Files::isRegularFile).toList()) {
        files.put(folder.relativize(each).toString(), Files.readString(each));
      }
      return files;
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
