package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ToolTest {

  @Test
  void noCommand_isWrongUse() {
    assertEquals(
        new Run(
            ExitCode.WRONG_USE, "", "A command is missing.\n`ullage --help` says how to use it.\n"),
        Run.of());
  }

  @Test
  void version_isThatOfTheBuild() {
    Run run = Run.of("--version");
    assertEquals(ExitCode.GOOD, run.code());
    assertTrue(run.out().matches("ullage [0-9]+\\.[0-9]+\\.[0-9]+\n"), run.out());
  }

  @Test
  void help_namesEveryCommandAndEveryExitCode() {
    Run run = Run.of("--help");
    assertEquals(ExitCode.GOOD, run.code());
    assertEquals("", run.err());
    assertTrue(run.out().contains("targets"), run.out());
    assertTrue(run.out().contains("0 good, 1 does not fit or findings, 2 wrong use"), run.out());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "survey",
        "budget",
        "slim",
        "emit",
        "audit",
        "wiring",
        "targets",
        "loop",
        "calibrate"
      })
  void helpOfACommand_fitsATerminalAndHasAnExample(String command) {
    Run run = Run.of(command, "--help");
    assertAll(
        () -> assertEquals(ExitCode.GOOD, run.code()),
        () -> assertEquals("", run.err()),
        () -> assertTrue(run.out().contains("Example: ullage " + command), run.out()),
        () -> assertTrue(run.out().lines().allMatch(line -> line.length() <= 80), run.out()));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "survey a.yaml",
        "budget a.yaml -t x",
        "slim a.yaml -t x",
        "emit a.yaml -t x -o y",
        "audit a.elf",
        "wiring a.yaml -t x",
        "targets",
        "loop a.yaml"
      })
  void unknownOption_isWrongUseAndPrintsNoResult(String line) {
    String command = line.split(" ")[0];
    assertEquals(
        new Run(
            ExitCode.WRONG_USE,
            "",
            "There is no option `--frobnicate`.\n`ullage %s --help` says how to use it.\n"
                .formatted(command)),
        Run.of((line + " --frobnicate").split(" ")));
  }

  @Test
  void misspeltCommand_namesTheNearest() {
    Run run = Run.of("tragets");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("There is no command `tragets`; nearest: `targets`."), run.err());
  }

  @Test
  void escapesInArguments_doNotReachTheTerminal() {
    Run run = Run.of("targets", "\u001b[31mred");
    assertEquals(ExitCode.WRONG_USE, run.code());
    assertTrue(run.err().contains("\\u001b[31mred"), run.err());
    assertEquals(-1, run.err().indexOf('\u001b'));
  }
}
