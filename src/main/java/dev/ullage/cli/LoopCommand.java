package dev.ullage.cli;

import dev.ullage.input.Printable;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** Checks a loop file. */
@Command(
    name = "loop",
    description = {
      "",
      "Checks a loop file and names everything that is wrong with it, each with its line.",
      ""
    },
    parameterListHeading = "Parameters:%n",
    optionListHeading = "%nOptions:%n",
    footer = {"", "Example: ullage loop cold-store.yaml"})
final class LoopCommand extends BaseCommand {
  @Parameters(paramLabel = "LOOP", description = "The loop file.")
  private Path file = Path.of("");

  LoopCommand(Surroundings around) {
    super(around);
  }

  @Override
  ExitCode run() {
    Loop loop = LoopReader.read(file);
    around.out().println(Printable.of(file + ": nothing wrong with " + loop.name()));
    return ExitCode.GOOD;
  }
}
