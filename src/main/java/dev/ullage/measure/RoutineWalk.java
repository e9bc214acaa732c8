package dev.ullage.measure;

import dev.ullage.measure.CodeSection.Goal;
import dev.ullage.measure.Stride.Flow;
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
final class RoutineWalk<S extends StackState<S>> {
  /** More than the longest routine of a part has, so that a made-up file does not fill memory. */
  private static final int MOST_INSTRUCTIONS = 200_000;

  private final CodeSection code;
  private final InstructionSet<S> instructions;
  private final int entry;
  private final TreeMap<Integer, S> states = new TreeMap<>();
  private final Deque<Integer> work = new ArrayDeque<>();
  private final List<Edge> edges = new ArrayList<>();
  private Optional<String> trouble = Optional.empty();
  private boolean enablesInterrupts;
  private boolean returns;
  private boolean servesInterrupt;
  private int deepest;

  private RoutineWalk(CodeSection code, InstructionSet<S> instructions, int entry) {
    this.code = code;
    this.instructions = instructions;
    this.entry = entry;
  }

  static <S extends StackState<S>> Routine walk(
      CodeSection code, InstructionSet<S> instructions, int entry) {
    RoutineWalk<S> walk = new RoutineWalk<>(code, instructions, entry);
    walk.reach(entry, instructions.atEntry());
    while (!walk.work.isEmpty()) {
      if (!code.spendStep() || walk.states.size() > MOST_INSTRUCTIONS) {
        walk.complain("is too long to follow", entry);
        walk.returns = true;
        break;
      }
      int offset = walk.work.pop();
      walk.step(offset, walk.states.get(offset));
    }
    return walk.collect();
  }

  /** What leads elsewhere is read once the states are final, in the order of the instructions. */
  private Routine collect() {
    for (Map.Entry<Integer, S> each : states.entrySet()) {
      leave(each.getKey(), each.getValue());
    }
    return new Routine(deepest, edges, trouble, enablesInterrupts, returns, servesInterrupt);
  }

  private void step(int offset, S before) {
    S state = before.copy();
    Stride stride = instructions.follow(code, entry, offset, state);
    stride.trouble().ifPresent(what -> complain(what, offset));
    deepest = Math.max(deepest, state.depth());
    int next = offset + stride.length();
    if (stride.flow() instanceof Flow.Jump jump) {
      jump(jump.to(), state);
    } else if (stride.flow() instanceof Flow.Branch branch) {
      jump(branch.to(), state);
    } else if (stride.flow() instanceof Flow.Skip skip) {
      runInto(skip.to(), state);
    } else if (stride.flow() instanceof Flow.Choice choice) {
      choice.to().forEach(to -> reach(to, state));
    } else if (stride.flow() instanceof Flow.Dispatch dispatch) {
      dispatch.to().forEach(to -> reach(to, state));
    }
    if (!stride.flow().leaves() && !isLast(stride.flow())) {
      runInto(next, state);
    }
    if (stride.conditional()) {
      runInto(next, before);
    }
  }

  private void leave(int offset, S before) {
    S state = before.copy();
    Stride stride = instructions.follow(code, entry, offset, state);
    int next = offset + stride.length();
    if (stride.flow() instanceof Flow.Return back) {
      returns = true;
      servesInterrupt |= back.fromInterrupt();
      if (state.depth() != 0) {
        complain("returns with " + state.depth() + " bytes on its stack", offset);
      }
    } else if (stride.flow() instanceof Flow.JumpComputed) {
      returns = true;
      complain("jumps to a computed address", offset);
    } else if (stride.flow() instanceof Flow.CallComputed) {
      complain("calls a computed address", offset);
    } else if (stride.flow() instanceof Flow.Call call) {
      addCall(call.to(), state, offset);
    } else if (stride.flow() instanceof Flow.Dispatch dispatch) {
      addCall(dispatch.helper(), state, offset);
    } else if (stride.flow() instanceof Flow.Jump jump) {
      addTail(jump.to(), state, offset);
    } else if (stride.flow() instanceof Flow.Branch branch) {
      addTail(branch.to(), state, offset);
    } else if (stride.flow() instanceof Flow.EnableInterrupts) {
      enablesInterrupts = true;
    }
    if (!stride.flow().leaves() && !isLast(stride.flow())) {
      addRunningInto(next, state, stride.flow());
    }
    if (stride.conditional()) {
      addRunningInto(next, before, stride.flow());
    }
  }

  /** A call of something that never comes back. */
  private boolean isLast(Flow flow) {
    return flow instanceof Flow.Call call
        && call.to() instanceof Goal.Inside inside
        && code.neverReturns(inside.offset());
  }

  /** Where the next instruction is another routine, a way to it. */
  private void addRunningInto(int next, S state, Flow flow) {
    // Compiled code that ends with a call does not expect it to come back.
    boolean ends =
        code.isEnd(next) && (flow instanceof Flow.Call || flow instanceof Flow.CallComputed);
    if (next != entry && !ends) {
      code.entry(next).ifPresent(to -> addTail(next, to, state));
    }
  }

  private void addTail(Goal goal, S state, int offset) {
    if (goal instanceof Goal.Outside outside) {
      returns = true;
      edges.add(new Edge(outside.name(), state.depth(), Edge.Type.TAIL));
    } else if (goal instanceof Goal.Inside inside && inside.offset() != entry) {
      if (!code.holds(inside.offset())) {
        complain("jumps out of the program", offset);
      }
      code.entry(inside.offset()).ifPresent(to -> addTail(inside.offset(), to, state));
    }
  }

  private void addTail(int offset, String to, S state) {
    returns |= !code.neverReturns(offset);
    edges.add(new Edge(to, state.depth(), Edge.Type.TAIL));
  }

  private void addCall(Goal goal, S state, int offset) {
    called(goal, offset).ifPresent(to -> edges.add(new Edge(to, state.depth(), Edge.Type.CALL)));
  }

  private Optional<String> called(Goal goal, int offset) {
    if (goal instanceof Goal.Outside outside) {
      return Optional.of(outside.name());
    }
    if (goal instanceof Goal.Inside inside && code.holds(inside.offset())) {
      return Optional.of(code.routine(inside.offset()));
    }
    complain("calls something outside the program", offset);
    return Optional.empty();
  }

  private void jump(Goal goal, S state) {
    if (goal instanceof Goal.Inside inside) {
      boolean elsewhere = inside.offset() != entry && code.entry(inside.offset()).isPresent();
      if (!elsewhere) {
        reach(inside.offset(), state);
      }
    }
  }

  private void runInto(int next, S state) {
    boolean elsewhere = next != entry && code.entry(next).isPresent();
    if (!elsewhere && !code.isEnd(next)) {
      reach(next, state);
    }
  }

  private void reach(int offset, S state) {
    if (!code.holds(offset)) {
      return;
    }
    S known = states.get(offset);
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
