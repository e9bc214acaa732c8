package dev.ullage.measure;

/**
 * What a walk along the instructions of a routine has to know of the part that they run on.
 *
 * @param <S> what is known between two instructions
 */
interface InstructionSet<S extends StackState<S>> {
  /** What is known before the first instruction of a routine. */
  S atEntry();

  /**
   * Follows one instruction.
   *
   * @param routine where the routine starts that the walk is in
   * @param state what is known before it, and afterwards what is known behind it
   */
  Stride follow(CodeSection code, int routine, int offset, S state);
}
