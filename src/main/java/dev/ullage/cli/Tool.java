package dev.ullage.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Function;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;

/** The whole tool, apart from the process: arguments in, exit code out. */
final class Tool {
  private static final Map<String, Function<Surroundings, BaseCommand>> COMMANDS =
      new LinkedHashMap<>();

  static {
    COMMANDS.put("survey", SurveyCommand::new);
    COMMANDS.put("budget", BudgetCommand::new);
    COMMANDS.put("targets", TargetsCommand::new);
    COMMANDS.put("loop", LoopCommand::new);
  }

  private final Surroundings around;

  Tool(Surroundings around) {
    this.around = around;
  }

  /** Runs one command. Whatever goes wrong, there is a message and an exit code. */
  ExitCode run(String... args) {
    Complaints complaints = new Complaints(around.err());
    try {
      return ExitCode.values()[commandLine(args, complaints).execute(args)];
    } catch (StackOverflowError | OutOfMemoryError tooMuch) {
      return complaints.ofBug(tooMuch);
    } finally {
      around.flush();
    }
  }

  private CommandLine commandLine(String[] args, Complaints complaints) {
    CommandLine root = new CommandLine(new UllageCommand());
    addCommands(root, args);
    root.setOut(around.out());
    root.setErr(around.err());
    root.setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF));
    OptionValues.register(root);
    root.setParameterExceptionHandler(complaints);
    root.setExecutionExceptionHandler(complaints);
    return root;
  }

  /**
   * Only the one that is asked for, where it is known: each takes its time to be looked through.
   */
  private void addCommands(CommandLine root, String[] args) {
    if (args.length > 0 && COMMANDS.containsKey(args[0])) {
      root.addSubcommand(COMMANDS.get(args[0]).apply(around));
    } else {
      COMMANDS.values().forEach(command -> root.addSubcommand(command.apply(around)));
    }
  }
}
