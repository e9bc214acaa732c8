package dev.ullage.cli;

import java.util.Locale;

/** Entry point of the process, and the only class that touches it. */
public final class Main {
  private Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] args) {
    System.exit(run(args));
  }

  /** Runs one command; answers the exit code of the process. */
  static int run(String... args) {
    // The same input gives the same bytes on every desk: no other digits, no other decimal mark.
    Locale.setDefault(Locale.ROOT);
    StandardOutput out = new StandardOutput();
    Surroundings around = Surroundings.ofProcess(out);
    int code = new Tool(around).run(args).number();
    if (out.failure().isPresent()) {
      around.err().println("Standard output cannot be written: " + out.failure().get() + ".");
      around.flush();
      return ExitCode.WRONG_USE.number();
    }
    return code;
  }
}
