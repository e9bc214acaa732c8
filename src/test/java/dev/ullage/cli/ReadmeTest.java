package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.LoopReader;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The README shows what the tool really prints. */
class ReadmeTest {
  private static final Path README = Path.of("README.md");
  private static final Pattern CONSOLE =
      Pattern.compile("```console\n\\$ target/ullage ([^\n]*)\n(.*?)```\n", Pattern.DOTALL);

  /** A loop file that says where it is to stand, for the commands after it. */
  private static final Pattern FILE =
      Pattern.compile("```yaml\n# (target/\\S+)\n(.*?)```", Pattern.DOTALL);

  private static final Pattern BUILD =
      Pattern.compile("```sh\n(make -C target/.*?)```", Pattern.DOTALL);
  private static final Path WALK = Path.of("target", "walk");

  @Test
  void shownOutput_isWhatTheCommandPrints() throws IOException {
    String shown = Files.readString(README);
    clear(WALK);
    writeFiles(shown);
    String real = CONSOLE.matcher(shown).replaceAll(ReadmeTest::withRealOutput);
    if (System.getProperty("ullage.golden", "check").equals("write")) {
      Files.writeString(README, real);
    }
    assertEquals(real, Files.readString(README));
    assertTrue(CONSOLE.matcher(shown).results().count() >= 2, "There are commands to run.");
  }

  /** What is shown as a script, after the commands before it. */
  @Test
  void shownBuild_succeeds() throws IOException {
    Toolchain.avr();
    dev.ullage.testing.Tool.require("make", "gcc");
    String shown = Files.readString(README);
    clear(WALK);
    writeFiles(shown);
    CONSOLE.matcher(shown).results().forEach(ReadmeTest::withRealOutput);
    Matcher build = BUILD.matcher(shown);
    assertTrue(build.find());
    for (String line : build.group(1).lines().toList()) {
      if (line.startsWith("target/ullage ")) {
        Run run = Run.of(line.substring("target/ullage ".length()).split(" "));
        assertTrue(run.isGood(), run.out() + run.err());
      } else {
        dev.ullage.testing.Tool.output(Path.of("."), "sh", "-c", line);
      }
    }
  }

  private static void writeFiles(String shown) throws IOException {
    Matcher file = FILE.matcher(shown);
    while (file.find()) {
      Path path = Path.of(file.group(1));
      Files.createDirectories(path.getParent());
      Files.writeString(path, file.group(2));
    }
  }

  private static void clear(Path folder) throws IOException {
    if (Files.exists(folder)) {
      try (Stream<Path> all = Files.walk(folder)) {
        for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
          Files.delete(path);
        }
      }
    }
  }

  private static String withRealOutput(MatchResult block) {
    Run run = Run.of(block.group(1).split(" "));
    String text = "```console\n$ target/ullage " + block.group(1) + "\n" + run.out() + "```\n";
    return Matcher.quoteReplacement(text);
  }

  @Test
  void shownLoopFile_isRight() throws IOException {
    Matcher yaml =
        Pattern.compile("```yaml\n(loop:.*?)```", Pattern.DOTALL).matcher(Files.readString(README));
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
