package dev.ullage.measure;

import dev.ullage.measure.CodeSection.Goal;
import dev.ullage.measure.Stride.Flow;
import dev.ullage.measure.Value.Constant;
import dev.ullage.measure.Value.FromTable;
import dev.ullage.measure.Value.OnStack;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** A machine with many like registers, one of which takes the return address of a call. */
final class RegisterMachine implements InstructionSet<RegisterState> {
  private static final String STACK = "sets the stack pointer to something unknown";

  private static final Flow NEXT = new Flow.Next();
  private static final RegisterInstruction.Operation STORE = RegisterInstruction.Operation.STORE;

  /** Reads the instruction at an address. */
  interface Decoder {
    /**
     * @param next the two bytes behind the first two; 0 at the end of the code
     */
    RegisterInstruction decode(int address, int half, int next);
  }

  private final Convention convention;
  private final Decoder decoder;
  private final LeafRoutines leaves;
  private final OptionalInt globalPointer;

  /** Places that an instruction before them made depend on a condition. */
  private final Set<Integer> conditional = new HashSet<>();

  /**
   * @param globalPointer what register 3 of a RISC-V program holds from its start on
   */
  RegisterMachine(Convention convention, Decoder decoder, OptionalInt globalPointer) {
    this.convention = convention;
    this.decoder = decoder;
    this.leaves = new LeafRoutines(decoder, convention.link());
    this.globalPointer = globalPointer;
  }

  @Override
  public RegisterState atEntry() {
    RegisterState state = RegisterState.atEntry(convention);
    globalPointer.ifPresent(address -> state.set(3, new Constant(address)));
    return state;
  }

  private RegisterInstruction at(CodeSection code, int offset) {
    return decoder.decode(
        offset, code.half(offset), code.holds(offset + 2) ? code.half(offset + 2) : 0);
  }

  @Override
  public Stride follow(CodeSection code, int routine, int offset, RegisterState state) {
    RegisterInstruction is = at(code, offset);
    boolean depends = conditional.contains(offset);
    Flow flow =
        switch (is.operation()) {
          case BRANCH -> new Flow.Branch(new Goal.Inside(is.value()));
          case JUMP -> jump(code, routine, offset, is, new Constant(is.value()), state);
          case JUMP_REGISTER ->
              jump(code, routine, offset, is, state.get(is.from()).plus(is.value()), state);
          case JUMP_TABLE -> table(code, routine, offset, is);
          case POP -> pop(code, routine, is, state);
          case RETURN_FROM_INTERRUPT -> new Flow.Return(true);
          case ENABLE_INTERRUPTS -> new Flow.EnableInterrupts();
          case STOP -> new Flow.Stop();
          default -> NEXT;
        };
    Optional<String> trouble = Optional.empty();
    if (flow instanceof Flow.EnableInterrupts) {
      state.forget(is.list());
    } else if (is.operation() == RegisterInstruction.Operation.IF_THEN) {
      markConditional(code, offset + is.length(), is.value());
    } else if (flow instanceof Flow.Next && is.operation() != RegisterInstruction.Operation.POP) {
      trouble = Calculation.follow(code, is, state, convention) ? trouble : Optional.of(STACK);
      if (convention.isProgramCounter(is.to()) && is.operation() != STORE) {
        flow = to(code, routine, Calculation.result(code, is, state, convention));
      }
    }
    return new Stride(is.length(), flow, depends, trouble);
  }

  private void markConditional(CodeSection code, int from, int count) {
    int at = from;
    for (int i = 0; i < count && code.holds(at); i++) {
      conditional.add(at);
      at += at(code, at).length();
    }
  }

  /** Loads registers; with the program counter among them, this is a jump. */
  private Flow pop(CodeSection code, int routine, RegisterInstruction is, RegisterState state) {
    Value base = state.get(is.from());
    Flow flow = NEXT;
    int depth = base instanceof OnStack at ? at.depth() : 0;
    for (int rest = is.list(); rest != 0; rest &= rest - 1) {
      int register = Integer.numberOfTrailingZeros(rest);
      Value value = base instanceof OnStack ? state.saved(depth) : Value.UNKNOWN;
      depth -= 4;
      if (convention.isProgramCounter(register)) {
        flow = to(code, routine, value);
      } else {
        state.set(register, value);
      }
    }
    if (is.value() != 0) {
      state.set(is.from(), base.plus(is.value()));
    }
    return flow;
  }

  private Flow jump(
      CodeSection code,
      int routine,
      int offset,
      RegisterInstruction is,
      Value address,
      RegisterState state) {
    int next = offset + is.length();
    if (is.to() == convention.link()) {
      return call(code, routine, next, address, state);
    }
    // With another link register, what is jumped to works on the stack of its caller.
    state.set(is.to(), new Constant(next));
    boolean helper = is.from() == convention.link() && JumpTables.isHelper(code.entry(routine));
    return helper ? new Flow.Return(false) : to(code, routine, address);
  }

  private Flow to(CodeSection code, int routine, Value address) {
    if (address instanceof Constant place) {
      return new Flow.Jump(new Goal.Inside(instruction(place.value())));
    }
    if (address instanceof FromTable entry) {
      List<Integer> places = JumpTables.words(code, routine, entry.start(), entry.base());
      return places.isEmpty() ? new Flow.JumpComputed() : new Flow.Choice(places);
    }
    return address instanceof Value.ReturnAddress
        ? new Flow.Return(false)
        : new Flow.JumpComputed();
  }

  private Flow call(CodeSection code, int routine, int next, Value address, RegisterState state) {
    if (!(address instanceof Constant place)) {
      state.forgetAfterCall(-1);
      return new Flow.CallComputed();
    }
    int to = instruction(place.value());
    if (code.isInside(routine, to)) {
      // ARMv6-M has no other jump that reaches far, and hand-written code calls parts of itself.
      state.set(convention.link(), new Constant(next));
      return new Flow.Jump(new Goal.Inside(to));
    }
    state.forgetAfterCall(leaves.writtenBy(code, to));
    Goal goal = new Goal.Inside(to);
    return JumpTables.isHelper(code.entry(to))
        ? new Flow.Dispatch(goal, JumpTables.behind(code, routine, next, code.entry(to)))
        : new Flow.Call(goal);
  }

  private static Flow table(CodeSection code, int routine, int offset, RegisterInstruction is) {
    List<Integer> places =
        JumpTables.halved(code, routine, offset + is.length(), is.value(), false);
    return places.isEmpty() ? new Flow.JumpComputed() : new Flow.Choice(places);
  }

  /** Where an instruction is: the lowest bit of an address tells the instruction set. */
  private static int instruction(int address) {
    return address & ~1;
  }
}
