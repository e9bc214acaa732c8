package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * What is said when something is wrong, word for word, in one text that can be read as a whole. It
 * is written anew as the golden files are; to add a case, add its command and let it be written.
 */
class ErrorTextsTest {
  private static final Path TEXTS = Path.of("src/test/resources/errors/errors.txt");
  private static final String PROMPT = "$ ullage";

  @Test
  void errorTexts_areAsTheyWereReviewed() throws IOException {
    Tool.require("avr-gcc"); // calibrate complains of its absence first
    List<String> commands =
        Files.readAllLines(TEXTS).stream().filter(line -> line.startsWith(PROMPT)).toList();
    assertTrue(commands.size() >= 30, commands.size() + " commands");
    String real = commands.stream().map(ErrorTextsTest::answer).collect(Collectors.joining("\n"));
    if (System.getProperty("ullage.golden", "check").equals("write")) {
      Files.writeString(TEXTS, real);
    }
    assertEquals(real, Files.readString(TEXTS));
  }

  private static String answer(String command) {
    String arguments = command.substring(PROMPT.length()).strip();
    Run run = arguments.isEmpty() ? Run.of() : Run.of(arguments.split(" "));
    assertEquals("", run.out(), command);
    assertFalse(run.err().contains("Exception"), run.err());
    return command + "\n" + run.err() + "= " + run.code().number() + "\n";
  }
}
