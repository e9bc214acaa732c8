package dev.ullage.measure;

import dev.ullage.measure.Symbol.Edge;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Functions by number, and how deep the stack is where one reaches another. Finds the deepest path
 * by relaxing from the root, so shared tails cost nothing and a loop that adds bytes is recursion.
 */
public final class CallGraph {
  private static final int NOT_REACHED = -1;

  /** More than any real program needs, so that a file made to keep us busy does not. */
  private static final int MOST_STEPS = 500_000;

  private record Way(int to, int depth, boolean call) {}

  private final int returnAddressBytes;
  private final List<String> names = new ArrayList<>();
  private final Map<String, Integer> numbers = new HashMap<>();
  private final List<Integer> ownStack = new ArrayList<>();
  private final List<Optional<String>> unbounded = new ArrayList<>();
  private final List<List<Way>> ways = new ArrayList<>();

  /**
   * @param returnAddressBytes what a call puts on the stack
   */
  public CallGraph(int returnAddressBytes) {
    this.returnAddressBytes = returnAddressBytes;
  }

  /**
   * The graph of a whole program, where no two symbols have the same name. A function that calls
   * what is not in it has no bound.
   */
  public static CallGraph of(Collection<Symbol> program, int returnAddressBytes) {
    CallGraph graph = new CallGraph(returnAddressBytes);
    for (Symbol each : program) {
      graph.add(each.name(), each.ownStack(), each.unbounded());
    }
    for (Symbol each : program) {
      graph.connect(each);
    }
    return graph;
  }

  /** Adds a function and returns its number; the first is 0. */
  public int add(String name, int ownStackBytes, Optional<String> whyUnbounded) {
    names.add(name);
    ownStack.add(ownStackBytes);
    unbounded.add(whyUnbounded);
    ways.add(new ArrayList<>());
    numbers.putIfAbsent(name, names.size() - 1);
    return names.size() - 1;
  }

  /** The number of the first function of that name. */
  public OptionalInt find(String name) {
    Integer number = numbers.get(name);
    return number == null ? OptionalInt.empty() : OptionalInt.of(number);
  }

  /** Adds a call or, with {@code call} false, a jump from one function to another. */
  public void connect(int from, int to, int depth, boolean call) {
    ways.get(from).add(new Way(to, depth, call));
  }

  private void connect(Symbol from) {
    for (Edge edge : from.edges()) {
      if (edge.type() != Edge.Type.REFERENCE) {
        int to = find(edge.target()).orElseGet(() -> addMissing(from, edge));
        connect(numbers.get(from.name()), to, edge.depth(), edge.type() == Edge.Type.CALL);
      }
    }
  }

  private int addMissing(Symbol from, Edge edge) {
    String why = from.name() + " calls " + edge.target() + ", which is not there";
    return add(edge.target(), 0, Optional.of(why));
  }

  /** The deepest stack below a call to one of these, its return address included. */
  public StackPath deepest(int... roots) {
    return new Walk(roots).path();
  }

  /**
   * The deepest way from one function to another, without that one; empty where none leads there,
   * or where functions on the way call themselves.
   */
  Optional<StackPath> pathTo(int root, int goal) {
    return new Walk(root).to(goal);
  }

  /** One relaxation: how deep the stack can be when each function is entered. */
  private final class Walk {
    private final int[] entered = new int[names.size()];
    private final int[] from = new int[names.size()];
    private final int[] visits = new int[names.size()];
    private final boolean[] waiting = new boolean[names.size()];
    private final Deque<Integer> work = new ArrayDeque<>();
    private Optional<String> why = Optional.empty();
    private final boolean endless;

    Walk(int... roots) {
      Arrays.fill(entered, NOT_REACHED);
      Arrays.fill(from, NOT_REACHED);
      for (int root : roots) {
        entered[root] = returnAddressBytes;
        enqueue(root);
      }
      for (int steps = 0; !work.isEmpty() && why.isEmpty(); ) {
        int function = work.remove();
        steps += 1 + ways.get(function).size();
        if (steps > MOST_STEPS) {
          why = Optional.of(names.get(function) + " is part of too much to follow");
        }
        visit(function);
      }
      endless = why.isPresent();
      for (int i = 0; i < entered.length && why.isEmpty(); i++) {
        why = entered[i] == NOT_REACHED ? Optional.empty() : unbounded.get(i);
      }
    }

    /** Without recursion, a function is visited at most as often as there are functions. */
    private void visit(int function) {
      waiting[function] = false;
      if (++visits[function] > names.size()) {
        why = Optional.of(names.get(onLoopBefore(function)) + " calls itself");
        return;
      }
      for (Way way : ways.get(function)) {
        int depth = entered[function] + way.depth() + (way.call() ? returnAddressBytes : 0);
        if (depth > entered[way.to()]) {
          entered[way.to()] = depth;
          from[way.to()] = function;
          enqueue(way.to());
        }
      }
    }

    private void enqueue(int function) {
      if (!waiting[function]) {
        waiting[function] = true;
        work.add(function);
      }
    }

    /** Going back as many times as there are functions must end on the loop. */
    private int onLoopBefore(int function) {
      int at = function;
      for (int i = 0; i < names.size() && from[at] != NOT_REACHED; i++) {
        at = from[at];
      }
      return at;
    }

    StackPath path() {
      int last = NOT_REACHED;
      int bytes = 0;
      for (int i = 0; i < entered.length; i++) {
        if (entered[i] != NOT_REACHED && entered[i] + ownStack.get(i) > bytes) {
          bytes = entered[i] + ownStack.get(i);
          last = i;
        }
      }
      return new StackPath(bytes, why.isEmpty() ? steps(last, bytes) : List.of(), why);
    }

    Optional<StackPath> to(int goal) {
      if (endless || entered[goal] == NOT_REACHED) {
        return Optional.empty();
      }
      int bytes = entered[goal] - (from[goal] == NOT_REACHED ? 0 : returnAddressOf(goal));
      List<StackPath.Step> steps = steps(goal, bytes);
      return Optional.of(
          new StackPath(bytes, steps.subList(0, steps.size() - 1), Optional.empty()));
    }

    private List<StackPath.Step> steps(int last, int bytes) {
      List<StackPath.Step> steps = new ArrayList<>();
      int below = bytes;
      for (int at = last; at != NOT_REACHED; at = from[at]) {
        // What is on the stack before the return address of this function.
        int above = from[at] == NOT_REACHED ? 0 : entered[at] - returnAddressOf(at);
        steps.add(0, new StackPath.Step(names.get(at), below - above));
        below = above;
      }
      return steps;
    }

    private int returnAddressOf(int function) {
      int caller = from[function];
      boolean called =
          ways.get(caller).stream()
              .anyMatch(
                  way ->
                      way.to() == function
                          && way.call()
                          && entered[caller] + way.depth() + returnAddressBytes
                              == entered[function]);
      return called ? returnAddressBytes : 0;
    }
  }
}
