package dev.ullage.cli;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import dev.ullage.input.Printable;
import java.io.PrintWriter;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;

/** What is said when something goes wrong, and the exit code that goes with it. */
final class Complaints implements IParameterExceptionHandler, IExecutionExceptionHandler {
  /** Set to {@code true}, a mistake in the tool shows its stack trace. */
  static final String TRACE = "ullage.trace";

  private final PrintWriter err;

  Complaints(PrintWriter err) {
    this.err = err;
  }

  @Override
  public int handleParseException(ParameterException mistake, String[] args) {
    String command = mistake.getCommandLine().getCommandSpec().qualifiedName();
    err.println(Printable.of(UsageWords.of(mistake)) + ".");
    err.printf("`%s --help` says how to use it.%n", command);
    return ExitCode.WRONG_USE.number();
  }

  @Override
  public int handleExecutionException(Exception failure, CommandLine command, ParseResult result) {
    if (!(failure instanceof InputException input)) {
      return ofBug(failure).number();
    }
    input.findings().stream().map(Finding::text).forEach(err::println);
    return ExitCode.BAD_INPUT.number();
  }

  /** A mistake in the tool: one line, and how to report it. */
  ExitCode ofBug(Throwable bug) {
    String what = Printable.of(bug.toString());
    err.printf("This is a mistake in ullage %s, not in your input: %s%n", Version.text(), what);
    err.println(
        "Please report it with the command and the loop file; `-D"
            + TRACE
            + "=true` after `java` adds the stack trace.");
    if (Boolean.getBoolean(TRACE)) {
      bug.printStackTrace(err);
    }
    return ExitCode.BUG;
  }
}
