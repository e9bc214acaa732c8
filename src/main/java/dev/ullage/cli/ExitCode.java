package dev.ullage.cli;

/** What the process says to the one that started it. */
enum ExitCode {
  /** Done, and nothing to complain of. */
  GOOD,
  /** Done, and the answer is no: the loop does not fit, or there are findings. */
  FINDINGS,
  /** The command line cannot be carried out as it stands. */
  WRONG_USE,
  /** A file that the user wrote is wrong. */
  BAD_INPUT,
  /** A mistake in this tool. */
  BUG;

  /** 0 to 4, as the README lists them. */
  int number() {
    return ordinal();
  }
}
