package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.OwnProcess;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The same input gives the same bytes, whatever the language, the digits, the time zone, the
 * charset and the line ends of the machine. Each desk runs in a process of its own.
 */
class SameBytesTest {
  private static final String LOOP = "generated-samples/cold-store/cold-store.yaml";
  private static final String TRACE = "generated-samples/cold-store/trace.csv";

  private static final List<String> PLAIN =
      List.of(
          "-Duser.language=en",
          "-Duser.country=US",
          "-Duser.timezone=UTC",
          "-Dfile.encoding=UTF-8");

  /** A small i with no dot of its own, a comma for a point, digits of another script. */
  private static final List<List<String>> DESKS =
      List.of(
          List.of(
              "-Duser.language=tr",
              "-Duser.country=TR",
              "-Duser.timezone=Pacific/Chatham",
              "-Dfile.encoding=ISO-8859-9",
              "-Dline.separator=\r\n"),
          List.of(
              "-Duser.language=ar",
              "-Duser.country=EG",
              "-Duser.timezone=America/St_Johns",
              "-Dfile.encoding=US-ASCII",
              "-Dline.separator=\r"));

  @TempDir private Path temp;

  @Test
  void everyDesk_getsTheSameBytes() throws IOException {
    Path loop = temp.resolve("loop.yaml");
    String kept = Files.readString(Path.of(LOOP)).replace("cold-store guard", "kühl İıß 冷蔵庫");
    assertTrue(kept.contains("İıß"));
    Files.writeString(loop, kept);
    Map<String, byte[]> first = made(PLAIN, loop, "plain");
    assertTrue(first.size() > 40, first.size() + " results");
    for (int i = 0; i < DESKS.size(); i++) {
      Map<String, byte[]> other = made(DESKS.get(i), loop, "desk" + i);
      assertEquals(first.keySet(), other.keySet());
      for (Map.Entry<String, byte[]> each : first.entrySet()) {
        assertArrayEquals(each.getValue(), other.get(each.getKey()), each.getKey() + DESKS.get(i));
      }
    }
  }

  /** A shell with no language at all may be unable to name a file, and then hears so. */
  @Test
  void nameThatTheShellCannotWrite_isNoMistakeOfTheTool() {
    Map<String, String> bare = Map.of("LC_ALL", "POSIX", "LANG", "POSIX");
    OwnProcess.Outcome outcome =
        OwnProcess.tool(
            List.of("-Dsun.jnu.encoding=ANSI_X3.4-1968"), bare, "survey", "k\u00fchl.yaml");
    assertTrue(outcome.exit() == 2 || outcome.exit() == 3, outcome.err());
    assertFalse(outcome.err().contains("mistake in ullage"), outcome.err());
  }

  /** All commands in one process, for each start takes its time. */
  private Map<String, byte[]> made(List<String> options, Path loop, String desk)
      throws IOException {
    Path folder = Files.createDirectories(temp.resolve("desk")); // its name is in the results
    Map<String, byte[]> made = new TreeMap<>();
    OwnProcess.Outcome outcome =
        OwnProcess.of(options, Desk.class.getName(), loop.toString(), TRACE, folder.toString());
    assertEquals(0, outcome.exit(), outcome.err());
    made.put("standard output", outcome.out());
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path each : all.filter(Files::isRegularFile).toList()) {
        made.put(folder.relativize(each).toString(), Files.readAllBytes(each));
      }
    }
    Files.move(folder, temp.resolve(desk));
    assertTrue(new String(outcome.out(), StandardCharsets.UTF_8).contains("İıß"), "in UTF-8");
    return made;
  }
}
