package dev.ullage.cli;

import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The tool without a command: says what it is for. */
@Command(
    name = "ullage",
    versionProvider = Version.class,
    synopsisSubcommandLabel = "COMMAND",
    description = {
      "",
      "Says how much of a small microcontroller is left once it runs your sensor loop, before you"
          + " buy it, and writes the firmware.",
      "",
      "A loop file describes the job: a sensor on a two-wire bus, an average, a limit, and what"
          + " lights up or makes noise past it. No compiler is needed for the answer.",
      ""
    },
    commandListHeading = "Commands:%n",
    optionListHeading = "Options:%n",
    footer = {
      "",
      "Example: ullage survey cold-store.yaml",
      "",
      "Exit codes: 0 good, 1 does not fit or findings, 2 wrong use, 3 bad input file, 4 a mistake"
          + " in the tool."
    })
final class UllageCommand implements Runnable {
  @Spec private CommandSpec spec;

  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Show this text; `ullage COMMAND --help` shows that of a command.")
  private boolean help;

  @Option(
      names = {"-V", "--version"},
      versionHelp = true,
      description = "Show the version.")
  private boolean version;

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "A command is missing");
  }
}
