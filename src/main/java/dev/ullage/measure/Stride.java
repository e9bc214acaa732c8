package dev.ullage.measure;

import java.util.List;
import java.util.Optional;

/**
 * What one instruction does to a walk.
 *
 * @param length of the instruction in bytes
 * @param flow where the walk goes on
 * @param conditional true where the instruction may as well do nothing
 * @param trouble why its effect on the stack is not known, if it is not
 */
record Stride(int length, Flow flow, boolean conditional, Optional<String> trouble) {

  static Stride of(int length, Flow flow) {
    return new Stride(length, flow, false, Optional.empty());
  }

  /** Where control goes. */
  sealed interface Flow {
    /** To the next instruction. */
    record Next() implements Flow {}

    /** To the next instruction; interrupts may come from there on. */
    record EnableInterrupts() implements Flow {}

    /** To the next instruction or, over that, to another place in line. */
    record Skip(int to) implements Flow {}

    /** To one place. */
    record Jump(CodeSection.Goal to) implements Flow {}

    /** To one place or to the next instruction. */
    record Branch(CodeSection.Goal to) implements Flow {}

    /** To one of several places of the same routine. */
    record Choice(List<Integer> to) implements Flow {}

    /** To another routine and back. */
    record Call(CodeSection.Goal to) implements Flow {}

    /** To a helper, which goes on at one of several places of the same routine. */
    record Dispatch(CodeSection.Goal helper, List<Integer> to) implements Flow {}

    /** To an address that is not known, and back. */
    record CallComputed() implements Flow {}

    /** To an address that is not known. */
    record JumpComputed() implements Flow {}

    /** Back to the caller or, out of an interrupt, to where it came. */
    record Return(boolean fromInterrupt) implements Flow {}

    /** Nowhere: the program ends here. */
    record Stop() implements Flow {}

    /** Whether control never reaches the next instruction in line. */
    default boolean leaves() {
      return this instanceof Jump
          || this instanceof Choice
          || this instanceof Dispatch
          || this instanceof JumpComputed
          || this instanceof Return
          || this instanceof Stop;
    }
  }
}
