package dev.ullage.cli;

import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;

/** The tool without a command: says what it is for. */
final class RootCommand implements Runnable {
  private final CommandSpec spec = CommandSpec.wrapWithoutInspection(this);

  RootCommand() {
    spec.name("ullage");
    spec.versionProvider(new Version());
    spec.addOption(
        OptionSpec.builder("-h", "--help")
            .type(boolean.class)
            .usageHelp(true)
            .description("Show this text; `ullage COMMAND --help` shows that of a command.")
            .build());
    spec.addOption(
        OptionSpec.builder("-V", "--version")
            .type(boolean.class)
            .versionHelp(true)
            .description("Show the version.")
            .build());
    describe();
  }

  private void describe() {
    spec.usageMessage()
        .synopsisSubcommandLabel("COMMAND")
        .description(
            "",
            "Says how much of a small microcontroller is left once it runs your sensor loop, before"
                + " you buy it, and writes the firmware.",
            "",
            "A loop file describes the job: a sensor on a two-wire bus, an average, a limit, and"
                + " what lights up or makes noise past it. No compiler is needed for the answer.",
            "")
        .commandListHeading("%nCommands:%n")
        .optionListHeading("Options:%n")
        .footer(
            "",
            "Example: ullage survey cold-store.yaml",
            "",
            "Exit codes: 0 good, 1 does not fit or findings, 2 wrong use, 3 bad input file, 4 a"
                + " mistake in the tool.");
  }

  CommandSpec spec() {
    return spec;
  }

  @Override
  public void run() {
    throw new ParameterException(spec.commandLine(), "A command is missing");
  }
}
