package dev.ullage.cli;

import java.io.PrintWriter;

/**
 * How far long work has come, on standard error: one line that is written over and over where a
 * person looks on, and a line for each tenth where the text is kept.
 */
final class Progress {
  private static final int TENTHS = 10;
  private static final int PERCENT = 100;

  private final PrintWriter err;
  private final boolean watched;
  private final String what;
  private int shown = -1;

  /**
   * @param what is counted, and what was done with it: {@code modules compiled}
   */
  Progress(Surroundings around, String what) {
    this.err = around.err();
    this.watched = around.watched();
    this.what = what;
  }

  /** So many of so many are done; may be told from any thread. */
  synchronized void at(int done, int all) {
    int step = (int) ((long) done * (watched ? PERCENT : TENTHS) / Math.max(1, all));
    if (step <= shown) {
      return;
    }
    shown = step;
    String line = done + " of " + all + " " + what;
    err.print(watched ? "\r" + line + (done == all ? "\n" : "") : line + "\n");
    err.flush();
  }
}
