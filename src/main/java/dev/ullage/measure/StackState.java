package dev.ullage.measure;

/**
 * What is known at one instruction of a routine: how much is on its stack, and what registers hold
 * as far as that bears on it.
 */
interface StackState<S extends StackState<S>> {
  /** Bytes on the stack since the routine began. */
  int depth();

  S copy();

  /**
   * Keeps what both states, which have the same depth, agree on.
   *
   * @return whether this one changed
   */
  boolean meet(S other);
}
