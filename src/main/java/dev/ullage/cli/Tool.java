package dev.ullage.cli;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import dev.ullage.input.Printable;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** The whole tool, apart from the process: arguments in, exit code out. */
final class Tool {
  /** Set to {@code true}, a mistake in the tool shows its stack trace. */
  static final String TRACE = "ullage.trace";

  private final Surroundings around;
  private final CommandLine commands;

  Tool(Surroundings around) {
    this.around = around;
    this.commands = commands(around);
  }

  /** Runs one command. Whatever goes wrong, there is a message and an exit code. */
  ExitCode run(String... args) {
    try {
      return ExitCode.values()[commands.execute(args)];
    } catch (StackOverflowError | OutOfMemoryError tooMuch) {
      return ExitCode.values()[reportBug(tooMuch)];
    } finally {
      around.flush();
    }
  }

  private CommandLine commands(Surroundings around) {
    CommandLine root = new CommandLine(new UllageCommand());
    root.addSubcommand(new SurveyCommand(around));
    root.addSubcommand(new BudgetCommand(around));
    root.addSubcommand(new TargetsCommand(around));
    root.addSubcommand(new LoopCommand(around));
    root.setOut(around.out());
    root.setErr(around.err());
    root.setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF));
    OptionValues.register(root);
    root.setParameterExceptionHandler((mistake, args) -> reportUse(mistake));
    root.setExecutionExceptionHandler((failure, command, result) -> report(failure));
    return root;
  }

  private int reportUse(ParameterException mistake) {
    CommandLine command = mistake.getCommandLine();
    around.err().println(Printable.of(mistake.getMessage()) + ".");
    UnmatchedArgumentException.printSuggestions(mistake, around.err());
    around
        .err()
        .printf("`%s --help` says how to use it.%n", command.getCommandSpec().qualifiedName());
    return ExitCode.WRONG_USE.number();
  }

  private int report(Exception failure) {
    if (!(failure instanceof InputException input)) {
      return reportBug(failure);
    }
    input.findings().stream().map(Finding::text).forEach(around.err()::println);
    return ExitCode.BAD_INPUT.number();
  }

  private int reportBug(Throwable bug) {
    around
        .err()
        .printf("This is a mistake in ullage %s, not in your input: %s%n", Version.text(), bug);
    around
        .err()
        .println(
            "Please report it with the command and the loop file; `-D"
                + TRACE
                + "=true` after `java` adds the stack trace.");
    if (Boolean.getBoolean(TRACE)) {
      bug.printStackTrace(around.err());
    }
    return ExitCode.BUG.number();
  }
}
