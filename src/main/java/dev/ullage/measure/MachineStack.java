package dev.ullage.measure;

import dev.ullage.measure.StackPath.Step;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;

/**
 * How deep the stack of a program for ARM or RISC-V can be. Interrupts have the same priority, as
 * after a reset, so they do not nest.
 */
final class MachineStack {
  // The frame that an exception pushes, with 4 bytes to align it to 8: ARMv7-M Architecture
  // Reference Manual (DDI 0403E), B1.5.6 and B1.5.7; the longer one with floating-point registers.
  private static final int FRAME = 32 + 4;
  private static final int FRAME_WITH_FLOATS = 104 + 4;
  private static final int HARD_FLOAT = 0x400;

  private final ElfProgram program;
  private final CodeSection code;
  private final TreeMap<Integer, Routine> routines;
  private final CallGraph graph;

  MachineStack(
      ElfProgram program,
      CodeSection code,
      TreeMap<Integer, Routine> routines,
      List<Symbol> symbols) {
    this.program = program;
    this.code = code;
    this.routines = routines;
    this.graph = CallGraph.of(symbols, 0);
  }

  /**
   * @param entry where the file says that the program starts
   */
  StackBound bound(int entry) {
    OptionalInt main = graph.find("main");
    if (main.isEmpty()) {
      return new StackBound(0, List.of(), List.of(), Optional.of("there is no main"));
    }
    Optional<VectorTable> vectors =
        program.machine() == ElfProgram.ARM ? VectorTable.of(program, code) : Optional.empty();
    int start = vectors.map(VectorTable::reset).orElse(entry & ~1);
    List<Integer> handlers =
        program.machine() == ElfProgram.ARM
            ? vectors
                .map(table -> table.handlers().stream().filter(this::serves).toList())
                .orElse(List.of())
            : trapHandlers(start);
    StackPath path = fromStart(start, main.getAsInt());
    StackPath interrupt = interrupt(handlers);
    return new StackBound(
        path.bytes() + interrupt.bytes(),
        path.steps(),
        interrupt.steps(),
        path.unbounded().or(interrupt::unbounded).or(() -> nested(handlers)));
  }

  /**
   * From where the program starts, if that can be followed and leads to {@code main}. What runs
   * before {@code main} often calls constructors through pointers; then only what it holds as it
   * calls {@code main} counts.
   */
  private StackPath fromStart(int start, int main) {
    StackPath below = graph.deepest(main);
    if (below.unbounded().isPresent()) {
      return below;
    }
    OptionalInt root = code.entry(start).map(graph::find).orElse(OptionalInt.empty());
    Optional<StackPath> above =
        root.isPresent() ? graph.pathTo(root.getAsInt(), main) : Optional.empty();
    if (above.isEmpty()) {
      return below;
    }
    StackPath whole = graph.deepest(root.getAsInt());
    if (whole.unbounded().isEmpty()) {
      return new StackPath(whole.bytes(), withoutEmptyBegin(whole.steps()), Optional.empty());
    }
    List<Step> steps = new ArrayList<>(above.get().steps());
    steps.removeIf(step -> step.bytes() == 0);
    steps.addAll(below.steps());
    return new StackPath(above.get().bytes() + below.bytes(), steps, Optional.empty());
  }

  /** Start-up code that uses no stack is no step of the path. */
  private static List<Step> withoutEmptyBegin(List<Step> steps) {
    int first = 0;
    while (first < steps.size()
        && steps.get(first).bytes() == 0
        && !steps.get(first).function().equals("main")) {
      first++;
    }
    return steps.subList(first, steps.size());
  }

  private StackPath interrupt(List<Integer> handlers) {
    int[] roots =
        handlers.stream()
            .map(code::entry)
            .flatMap(Optional::stream)
            .map(graph::find)
            .flatMapToInt(OptionalInt::stream)
            .toArray();
    StackPath path = graph.deepest(roots);
    if (roots.length == 0 || program.machine() != ElfProgram.ARM) {
      return path;
    }
    int frame = (program.flags() & HARD_FLOAT) == 0 ? FRAME : FRAME_WITH_FLOATS;
    List<Step> steps = new ArrayList<>(path.steps());
    if (path.unbounded().isEmpty()) {
      steps.add(0, new Step("(interrupt)", frame));
    }
    return new StackPath(path.bytes() + frame, steps, path.unbounded());
  }

  /** Not where a program stops: a handler that only runs in circles is no service. */
  private boolean serves(int handler) {
    Routine routine = routines.getOrDefault(handler, Routine.NONE);
    return routine.returns() || routine.ownStack() > 0 || !routine.edges().isEmpty();
  }

  /** RISC-V has no table that all parts agree on; handlers are known by how they return. */
  private List<Integer> trapHandlers(int start) {
    return routines.entrySet().stream()
        .filter(each -> each.getValue().servesInterrupt() && each.getKey() != start)
        .map(Map.Entry::getKey)
        .toList();
  }

  private Optional<String> nested(List<Integer> handlers) {
    return handlers.stream()
        .filter(each -> Objects.requireNonNull(routines.get(each)).enablesInterrupts())
        .map(each -> code.place(each) + " lets other interrupts in")
        .findFirst();
  }
}
