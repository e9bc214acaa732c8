package dev.ullage.cli;

/**
 * Runs commands one after the other, for ever, for a test that kills it. Says {@code going} after
 * the first round, and what went wrong where something did.
 *
 * <p>Arguments: commands, each ended by {@code ;}, arguments with blanks between.
 */
final class Looper {
  private Looper() {}

  public static void main(String[] args) {
    String[] commands = String.join(" ", args).split(" ?; ?");
    for (long round = 0; ; round++) {
      for (String command : commands) {
        Run run = Run.of(command.split(" "));
        boolean wrong = run.code() == ExitCode.BUG || run.code() == ExitCode.WRONG_USE;
        if (wrong || run.code() == ExitCode.BAD_INPUT && !run.err().contains("another emission")) {
          System.out.println(command + " ended with " + run.code() + ": " + run.err());
        }
      }
      if (round == 0) {
        System.out.println("going");
      }
    }
  }
}
