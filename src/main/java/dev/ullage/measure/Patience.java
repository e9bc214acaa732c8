package dev.ullage.measure;

/**
 * How much of one file is followed: by default more than a program of 256 KiB needs, so only files
 * that were made to keep us busy reach the end of it.
 */
final class Patience {
  private int steps;
  private int routines = 3_000;

  Patience() {
    this(200_000);
  }

  /**
   * @param steps how many instructions are followed
   */
  Patience(int steps) {
    this.steps = steps;
  }

  /** Counts an instruction that is followed; false once there were too many. */
  boolean spend() {
    return steps-- > 0;
  }

  /** Counts a routine that nothing but a call tells of; too many end all patience. */
  void spendRoutine() {
    if (routines-- <= 0) {
      steps = 0;
    }
  }
}
