package dev.ullage.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What every command has: help, its surroundings, and an exit code for an answer. */
abstract class BaseCommand implements Callable<Integer> {
  final Surroundings around;

  @Spec CommandSpec spec;

  @Option(
      names = {"-h", "--help"},
      usageHelp = true,
      description = "Show this text.")
  private boolean help;

  BaseCommand(Surroundings around) {
    this.around = around;
  }

  /** Does what the options say. */
  abstract ExitCode run();

  @Override
  public final Integer call() {
    return run().number();
  }

  /** A command line that cannot be carried out; thrown by the caller. */
  final ParameterException wrongUse(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
