package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Completion as a shell does it, and manual pages as {@code man} shows them. */
class ShellFilesTest {
  @TempDir static Path folder;

  @BeforeAll
  static void write() throws IOException {
    ShellFiles.write(folder);
  }

  private static List<String> completed(String words) {
    int last = words.split(" ", -1).length - 1;
    String script =
        "source ullage/completion.sh; COMP_WORDS=("
            + words.replaceAll(" $", " ''")
            + "); "
            + "COMP_CWORD="
            + last
            + "; COMP_LINE='"
            + words
            + "'; _complete_ullage; "
            + "printf '%s\\n' \"${COMPREPLY[@]}\"";
    return Tool.output(folder, "bash", "-c", script).lines().map(String::strip).toList();
  }

  @ParameterizedTest
  @CsvSource({
    "ullage bud, budget",
    "ullage survey --so, --sort",
    "ullage survey --format h, html",
    "ullage budget --target attiny8, attiny85",
    "ullage targets attiny13, attiny13a",
    "ullage survey --core avr2, avr25",
    "ullage survey --sort n, name"
  })
  void bash_completes(String typed, String offered) {
    assertTrue(completed(typed).contains(offered), completed(typed).toString());
  }

  @Test
  void zsh_takesTheSameScript() {
    Tool.require("zsh");
    String registered =
        Tool.output(
            folder,
            "zsh",
            "-fc",
            "autoload -Uz compinit && compinit -u -D && source ullage/completion.sh"
                + " && print -r -- $_comps[ullage]");
    assertTrue(registered.contains("_complete_ullage"), registered);
  }

  @Test
  void files_areTheSameTheNextTime(@TempDir Path again) throws IOException {
    ShellFiles.write(again);
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        assertEquals(-1, Files.mismatch(file, again.resolve(folder.relativize(file).toString())));
      }
    }
  }

  @Test
  void everyCommand_hasAPageWithAllItsOptions() throws IOException {
    Tool.require("man");
    List<String> commands =
        List.copyOf(new dev.ullage.cli.Tool(AROUND).wholeCommandLine().getSubcommands().keySet());
    assertTrue(commands.size() >= 9, commands.toString());
    for (String command : commands) {
      String page = folder.resolve("man/man1/ullage-" + command + ".1").toString();
      assertEquals(
          "",
          Tool.output(
              folder, "sh", "-c", "man --warnings -l -Tascii '" + page + "' 2>&1 >/dev/null"));
      String shown = Tool.output(folder, "sh", "-c", "MANWIDTH=80 man -l '" + page + "'");
      Pattern.compile("--[a-z-]+")
          .matcher(Run.of(command, "--help").out())
          .results()
          .map(MatchResult::group)
          .forEach(option -> assertTrue(shown.contains(option), command + " " + option + shown));
      assertTrue(shown.contains("EXIT STATUS"), shown);
    }
  }

  private static final Surroundings AROUND = Surroundings.ofProcess(new StandardOutput());
}
