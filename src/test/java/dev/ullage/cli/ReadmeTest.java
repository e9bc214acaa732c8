package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.LoopReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The README shows what the tool really prints. */
class ReadmeTest {
  private static final Path README = Path.of("README.md");
  private static final Pattern CONSOLE =
      Pattern.compile("```console\n\\$ target/ullage ([^\n]*)\n(.*?)```\n", Pattern.DOTALL);

  @Test
  void shownOutput_isWhatTheCommandPrints() throws IOException {
    String shown = Files.readString(README);
    String real = CONSOLE.matcher(shown).replaceAll(ReadmeTest::withRealOutput);
    if (System.getProperty("ullage.golden", "check").equals("write")) {
      Files.writeString(README, real);
    }
    assertEquals(real, Files.readString(README));
    assertTrue(CONSOLE.matcher(shown).results().count() >= 2, "There are commands to run.");
  }

  private static String withRealOutput(MatchResult block) {
    Run run = Run.of(block.group(1).split(" "));
    String text = "```console\n$ target/ullage " + block.group(1) + "\n" + run.out() + "```\n";
    return Matcher.quoteReplacement(text);
  }

  @Test
  void shownLoopFile_isRight() throws IOException {
    Matcher yaml =
        Pattern.compile("```yaml\n(.*?)```", Pattern.DOTALL).matcher(Files.readString(README));
    assertTrue(yaml.find());
    assertEquals("cold-store guard", LoopReader.read("README.md", yaml.group(1)).name());
  }

  @Test
  void commands_areAllDescribed() throws IOException {
    String readme = Files.readString(README);
    Run.of("--help")
        .out()
        .lines()
        .dropWhile(line -> !line.equals("Commands:"))
        .skip(1)
        .takeWhile(line -> line.startsWith("  "))
        .map(line -> line.strip().split(" ")[0])
        .forEach(name -> assertTrue(readme.contains("| `" + name), name));
  }
}
