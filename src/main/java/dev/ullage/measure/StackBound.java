package dev.ullage.measure;

import dev.ullage.measure.StackPath.Step;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * The deepest stack of a whole program: the deepest path below the call to {@code main}, and on top
 * of it the deepest interrupt. Interrupts do not nest, because the hardware keeps them off while
 * one is served; a handler that lets them in again has no bound. On Cortex-M they do not nest while
 * all have the priority that they have after a reset, and what the hardware pushes is a step of its
 * own, {@code (interrupt)}. There and on RISC-V the path begins where the program starts, if that
 * can be followed.
 *
 * @param bytes the sum
 * @param main from {@code main} on
 * @param interrupt from the handler on; empty where there is none
 * @param unbounded why there is no bound, if there is none
 */
public record StackBound(
    int bytes, List<Step> main, List<Step> interrupt, Optional<String> unbounded) {
  private static final String UNUSED = "__bad_interrupt";
  private static final Pattern VECTOR = Pattern.compile("__vector_[0-9]+|isr_\\w+");

  public StackBound {
    main = List.copyOf(main);
    interrupt = List.copyOf(interrupt);
  }

  /** Whether a function is entered by an interrupt. */
  public static boolean isHandler(String name) {
    return VECTOR.matcher(name).matches();
  }

  static StackBound of(
      Collection<Symbol> program, int returnAddressBytes, Set<String> interruptible) {
    CallGraph graph = CallGraph.of(program, returnAddressBytes);
    if (graph.find("main").isEmpty()) {
      return new StackBound(0, List.of(), List.of(), Optional.of("there is no main"));
    }
    List<String> handlers = handlers(program);
    StackPath main = graph.deepest(graph.find("main").getAsInt());
    StackPath interrupt =
        graph.deepest(handlers.stream().mapToInt(each -> graph.find(each).getAsInt()).toArray());
    Optional<String> nested =
        handlers.stream()
            .filter(interruptible::contains)
            .map(each -> each + " lets other interrupts in")
            .findFirst();
    return new StackBound(
        main.bytes() + interrupt.bytes(),
        main.steps(),
        interrupt.steps(),
        main.unbounded().or(interrupt::unbounded).or(() -> nested));
  }

  /**
   * Vectors that the program does not use share a handler that starts the program over, unless the
   * program has one of its own for them.
   */
  private static List<String> handlers(Collection<Symbol> program) {
    return program.stream()
        .filter(each -> isHandler(each.name()) && !leadsTo(each, UNUSED) || isOwnDefault(each))
        .map(Symbol::name)
        .sorted()
        .toList();
  }

  private static boolean isOwnDefault(Symbol symbol) {
    return symbol.name().equals(UNUSED) && !symbol.edges().isEmpty();
  }

  private static boolean leadsTo(Symbol symbol, String target) {
    return symbol.edges().stream().anyMatch(edge -> edge.target().equals(target));
  }
}
