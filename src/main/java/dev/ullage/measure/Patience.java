package dev.ullage.measure;

/**
 * How much of one file is followed: several times what the largest part needs, so only files that
 * were made to keep us busy reach the end of it.
 */
final class Patience {
  private int steps = 400_000;
  private int routines = 10_000;

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
