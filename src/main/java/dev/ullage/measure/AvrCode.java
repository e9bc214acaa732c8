package dev.ullage.measure;

import dev.ullage.measure.Symbol.Edge;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * Follows the instructions of one routine along every path and keeps track of the stack.
 *
 * <p>Every path to an instruction must come with the same depth; compiled code does. Where it does
 * not, where the stack pointer is set to something unknown, or where a jump or call goes to a
 * computed address, the routine has no bound and the walk says why.
 */
final class AvrCode {
  /** What a routine does to the stack. */
  record Routine(
      int ownStack, List<Edge> edges, Optional<String> unbounded, boolean enablesInterrupts) {}

  private final CodeSection code;
  private final int returnAddressBytes;
  private final int entry;
  private final TreeMap<Integer, StackState> states = new TreeMap<>();
  private final Deque<Integer> work = new ArrayDeque<>();
  private final List<Edge> edges = new ArrayList<>();
  private Optional<String> trouble = Optional.empty();
  private boolean enablesInterrupts;
  private int deepest;

  private AvrCode(CodeSection code, int returnAddressBytes, int entry) {
    this.code = code;
    this.returnAddressBytes = returnAddressBytes;
    this.entry = entry;
  }

  static Routine walk(CodeSection code, int returnAddressBytes, int entry) {
    AvrCode walk = new AvrCode(code, returnAddressBytes, entry);
    walk.reach(entry, StackState.atEntry());
    while (!walk.work.isEmpty()) {
      if (!code.spendStep()) {
        walk.complain("is too long to follow", entry);
        break;
      }
      int offset = walk.work.pop();
      walk.step(offset, walk.states.get(offset).copy());
    }
    return walk.collect();
  }

  /** What leads elsewhere is read once the states are final, in the order of the instructions. */
  private Routine collect() {
    for (Map.Entry<Integer, StackState> each : states.entrySet()) {
      leave(each.getKey(), each.getValue());
    }
    return new Routine(deepest, edges, trouble, enablesInterrupts);
  }

  private void step(int offset, StackState state) {
    AvrInstruction instruction = code.at(offset);
    int next = offset + instruction.length();
    switch (instruction.operation()) {
      case RETURN, JUMP_INDIRECT -> {}
      case JUMP, JUMP_ABSOLUTE -> jump(code.goal(offset, instruction), state);
      case BRANCH -> {
        jump(code.goal(offset, instruction), state);
        runInto(next, state);
      }
      case SKIP -> {
        if (code.holds(next)) {
          runInto(next + code.at(next).length(), state);
        }
        runInto(next, state);
      }
      case CALL, CALL_ABSOLUTE, CALL_INDIRECT -> {
        if (makesRoom(offset, instruction)) {
          state.grow(returnAddressBytes);
        }
        state.forgetAfterCall();
        runInto(next, state);
      }
      default -> {
        if (!state.follow(instruction)) {
          complain("sets the stack pointer to something unknown", offset);
        }
        runInto(next, state);
      }
    }
    deepest = Math.max(deepest, state.depth());
  }

  private void leave(int offset, StackState state) {
    AvrInstruction instruction = code.at(offset);
    switch (instruction.operation()) {
      case RETURN -> {
        if (state.depth() != 0) {
          complain("returns with " + state.depth() + " bytes on its stack", offset);
        }
      }
      case JUMP_INDIRECT -> complain("jumps to a computed address", offset);
      case CALL_INDIRECT -> complain("calls a computed address", offset);
      case CALL, CALL_ABSOLUTE -> {
        if (!makesRoom(offset, instruction)) {
          called(code.goal(offset, instruction), offset)
              .ifPresent(to -> edges.add(new Edge(to, state.depth(), Edge.Type.CALL)));
        }
      }
      case JUMP, JUMP_ABSOLUTE, BRANCH -> addTail(code.goal(offset, instruction), state, offset);
      case ENABLE_INTERRUPTS -> enablesInterrupts = true;
      default -> {}
    }
    addRunningInto(offset, instruction, state);
  }

  /** Where the next instruction is another routine, a way to it. */
  private void addRunningInto(int offset, AvrInstruction instruction, StackState state) {
    boolean stops =
        switch (instruction.operation()) {
          case RETURN, JUMP, JUMP_ABSOLUTE, JUMP_INDIRECT -> true;
          default -> false;
        };
    int next = offset + instruction.length();
    if (stops || next == entry || code.isEnd(next)) {
      return;
    }
    StackState after = state.copy();
    if (makesRoom(offset, instruction)) {
      after.grow(returnAddressBytes);
    }
    after.follow(instruction);
    code.entry(next).ifPresent(to -> edges.add(new Edge(to, after.depth(), Edge.Type.TAIL)));
  }

  private void addTail(CodeSection.Goal goal, StackState state, int offset) {
    if (goal instanceof CodeSection.Goal.Outside outside) {
      edges.add(new Edge(outside.name(), state.depth(), Edge.Type.TAIL));
    } else if (goal instanceof CodeSection.Goal.Inside inside && inside.offset() != entry) {
      if (!code.holds(inside.offset())) {
        complain("jumps out of the program", offset);
      }
      code.entry(inside.offset())
          .ifPresent(to -> edges.add(new Edge(to, state.depth(), Edge.Type.TAIL)));
    }
  }

  private Optional<String> called(CodeSection.Goal goal, int offset) {
    if (goal instanceof CodeSection.Goal.Outside outside) {
      return Optional.of(outside.name());
    }
    if (goal instanceof CodeSection.Goal.Inside inside && code.holds(inside.offset())) {
      return Optional.of(code.routine(inside.offset()));
    }
    complain("calls something outside the program", offset);
    return Optional.empty();
  }

  /** A call to the very next instruction is how the compiler makes room for local variables. */
  private boolean makesRoom(int offset, AvrInstruction instruction) {
    return instruction.operation() == AvrInstruction.Operation.CALL
        && code.goal(offset, instruction) instanceof CodeSection.Goal.Inside inside
        && inside.offset() == offset + instruction.length();
  }

  private void jump(CodeSection.Goal goal, StackState state) {
    if (goal instanceof CodeSection.Goal.Inside inside) {
      boolean elsewhere = inside.offset() != entry && code.entry(inside.offset()).isPresent();
      if (!elsewhere) {
        reach(inside.offset(), state);
      }
    }
  }

  private void runInto(int next, StackState state) {
    boolean elsewhere = next != entry && code.entry(next).isPresent();
    if (!elsewhere && !code.isEnd(next)) {
      reach(next, state);
    }
  }

  private void reach(int offset, StackState state) {
    if (!code.holds(offset)) {
      return;
    }
    StackState known = states.get(offset);
    if (known == null) {
      states.put(offset, state.copy());
      work.push(offset);
    } else if (known.depth() != state.depth()) {
      complain(
          "has " + known.depth() + " or " + state.depth() + " bytes on its stack where paths meet",
          offset);
    } else if (known.meet(state)) {
      work.push(offset);
    }
  }

  private void complain(String what, int offset) {
    if (trouble.isEmpty()) {
      trouble = Optional.of(code.place(entry) + " " + what + " at " + code.place(offset));
    }
  }
}
