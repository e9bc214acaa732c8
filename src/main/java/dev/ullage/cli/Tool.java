package dev.ullage.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.BiFunction;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;

/** The whole tool, apart from the process: arguments in, exit code out. */
final class Tool {
  private static final Map<String, BiFunction<Surroundings, EarlyReading, BaseCommand>> COMMANDS =
      new LinkedHashMap<>();

  static {
    COMMANDS.put("survey", SurveyCommand::new);
    COMMANDS.put("budget", BudgetCommand::new);
    COMMANDS.put("slim", SlimCommand::new);
    COMMANDS.put("emit", EmitCommand::new);
    COMMANDS.put("audit", AuditCommand::new);
    COMMANDS.put("replay", (around, early) -> new ReplayCommand(around));
    COMMANDS.put("wiring", WiringCommand::new);
    COMMANDS.put("targets", TargetsCommand::new);
    COMMANDS.put("loop", (around, early) -> new LoopCommand(around));
    COMMANDS.put("calibrate", (around, early) -> new CalibrateCommand(around));
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

  /** With every command in it, for what is made of them. */
  CommandLine wholeCommandLine() {
    return commandLine(new String[0], new Complaints(around.err()));
  }

  private CommandLine commandLine(String[] args, Complaints complaints) {
    String asked = args.length == 0 ? "" : args[0];
    EarlyReading early = new EarlyReading();
    early.startFor(asked);
    CommandLine root = new CommandLine(new RootCommand().spec());
    // Only the command that is asked for, where it is known: each takes its time to look through.
    COMMANDS.keySet().stream()
        .filter(name -> !COMMANDS.containsKey(asked) || name.equals(asked))
        .forEach(name -> root.addSubcommand(name, COMMANDS.get(name).apply(around, early).spec()));
    root.setOut(around.out());
    root.setErr(around.err());
    root.setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF));
    OptionValues.register(root);
    root.setParameterExceptionHandler(complaints);
    root.setExecutionExceptionHandler(complaints);
    return root;
  }
}
