package dev.ullage.measure;

import dev.ullage.measure.CodeSection.Goal;
import dev.ullage.measure.Stride.Flow;
import java.util.Optional;

/** AVR: a call pushes its return address, and the stack pointer is set through two registers. */
final class AvrInstructions implements InstructionSet<AvrState> {
  private final int returnAddressBytes;
  private final int base;

  /**
   * @param returnAddressBytes what a call puts on the stack
   * @param base address of what has offset 0
   */
  AvrInstructions(int returnAddressBytes, int base) {
    this.returnAddressBytes = returnAddressBytes;
    this.base = base;
  }

  @Override
  public AvrState atEntry() {
    return AvrState.atEntry();
  }

  @Override
  public Stride follow(CodeSection code, int routine, int offset, AvrState state) {
    AvrInstruction instruction = at(code, offset);
    int length = instruction.length();
    Flow flow =
        switch (instruction.operation()) {
          case RETURN -> new Flow.Return(false);
          case JUMP_INDIRECT -> new Flow.JumpComputed();
          case JUMP, JUMP_ABSOLUTE -> new Flow.Jump(goal(code, offset, instruction));
          case BRANCH -> new Flow.Branch(goal(code, offset, instruction));
          case SKIP -> skip(code, offset + length);
          case ENABLE_INTERRUPTS -> new Flow.EnableInterrupts();
          case CALL, CALL_ABSOLUTE, CALL_INDIRECT -> call(code, offset, instruction, state);
          default -> new Flow.Next();
        };
    boolean known = !(flow instanceof Flow.Next) || state.follow(instruction);
    return new Stride(
        length,
        flow,
        false,
        known ? Optional.empty() : Optional.of("sets the stack pointer to something unknown"));
  }

  private static AvrInstruction at(CodeSection code, int offset) {
    return AvrInstruction.decode(
        code.half(offset), code.holds(offset + 2) ? code.half(offset + 2) : 0);
  }

  private static Flow skip(CodeSection code, int next) {
    return code.holds(next) ? new Flow.Skip(next + at(code, next).length()) : new Flow.Next();
  }

  private Flow call(CodeSection code, int offset, AvrInstruction instruction, AvrState state) {
    state.forgetAfterCall();
    if (instruction.operation() == AvrInstruction.Operation.CALL_INDIRECT) {
      return new Flow.CallComputed();
    }
    Goal goal = goal(code, offset, instruction);
    // A call to the very next instruction is how the compiler makes room for local variables.
    boolean makesRoom =
        instruction.operation() == AvrInstruction.Operation.CALL
            && goal instanceof Goal.Inside inside
            && inside.offset() == offset + instruction.length();
    if (makesRoom) {
      state.grow(returnAddressBytes);
      return new Flow.Next();
    }
    return new Flow.Call(goal);
  }

  private Goal goal(CodeSection code, int offset, AvrInstruction instruction) {
    Optional<Goal> linked = code.filledIn(offset);
    if (linked.isPresent()) {
      return linked.get();
    }
    boolean absolute =
        instruction.operation() == AvrInstruction.Operation.JUMP_ABSOLUTE
            || instruction.operation() == AvrInstruction.Operation.CALL_ABSOLUTE;
    int target =
        absolute ? instruction.value() - base : offset + instruction.length() + instruction.value();
    boolean vectors = code.entry(target).filter("__vectors"::equals).isPresent();
    return target + base == 0 && vectors ? new Goal.Restart() : new Goal.Inside(target);
  }
}
