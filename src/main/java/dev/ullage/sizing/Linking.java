package dev.ullage.sizing;

import dev.ullage.measure.CallGraph;
import dev.ullage.measure.StackBound;
import dev.ullage.measure.StackPath;
import dev.ullage.measure.Symbol;
import dev.ullage.measure.Symbol.Edge;
import dev.ullage.measure.Symbol.Place;
import dev.ullage.sizing.CostRow.Cost;
import dev.ullage.sizing.Estimate.Step;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a linker makes of a set of modules: keeps what {@code main} and the interrupt handlers lead
 * to, adds each helper once, and leaves out the rest. The result does not depend on constants,
 * counts or buffers, so one linking serves every loop with the same modules.
 */
final class Linking {

  /** What is kept of one module; sizes without the share of the counts. */
  static final class Kept {
    int flash;
    int ram;
    final SortedMap<String, Integer> flashSteps = new TreeMap<>();
    final SortedMap<String, Integer> ramSteps = new TreeMap<>();
    final Map<String, Integer> variables = new HashMap<>();

    private void add(Cost cost, Machine machine) {
      Symbol symbol = cost.symbol();
      // What 32-bit parts keep in place of EEPROM is a page of their program memory.
      boolean page = symbol.kind() == Symbol.Kind.EEPROM && machine != Machine.AVR;
      if (symbol.kind().inFlash() || page) {
        flash += symbol.bytes();
        cost.steps().forEach((count, bytes) -> flashSteps.merge(count, bytes, Integer::sum));
      }
      if (symbol.kind().inRam()) {
        ram += symbol.bytes();
        variables.put(symbol.name(), symbol.bytes());
        cost.steps().forEach((count, bytes) -> ramSteps.merge(count, bytes, Integer::sum));
      }
    }
  }

  /** A symbol that is kept. {@code owner} is the place of its module, or {@code HELPERS}. */
  private record Node(int owner, Cost cost, int function) {}

  private static final int HELPERS = -1;

  private final List<CostRow> rows;
  private final Optional<CostTable> library;
  private final Machine machine;
  private final CallGraph graph;
  private final Map<String, Cost> globals = new HashMap<>();
  private final Map<String, Integer> owners = new HashMap<>();
  private final List<Map<String, Cost>> own = new ArrayList<>();
  private final Map<Cost, Node> nodes = new java.util.IdentityHashMap<>();
  private final Deque<Node> work = new ArrayDeque<>();
  private final List<Integer> handlers = new ArrayList<>();
  private final List<Kept> kept = new ArrayList<>();
  private final Kept helpers = new Kept();
  private final List<String> missing = new ArrayList<>();
  private final List<Step> stackPath = new ArrayList<>();
  private int stack;
  private final Optional<Layout> layout;
  private int romData;

  /**
   * @param library helpers; empty for none
   */
  Linking(
      List<CostRow> rows, Optional<CostTable> library, int returnAddressBytes, Machine machine) {
    this.rows = rows;
    this.library = library;
    this.machine = machine;
    this.graph = new CallGraph(returnAddressBytes);
    for (int i = 0; i < rows.size(); i++) {
      register(i);
    }
    keepRoots();
    List<Node> order = new ArrayList<>();
    while (!work.isEmpty()) {
      Node node = work.remove();
      order.add(node);
      node.cost().symbol().edges().forEach(edge -> keep(node.owner(), edge.target(), isCall(edge)));
    }
    order.forEach(this::connect);
    measureStack();
    this.layout =
        machine == Machine.AVR
            ? Optional.empty()
            : Optional.of(new Layout(machine, rows.size(), pieces(order)));
  }

  /** Constants in program memory come before the code, which starts at an even address on AVR. */
  int padding() {
    return machine == Machine.AVR ? romData % 2 : 0;
  }

  /** Where the pieces go; empty where nothing depends on that. */
  Optional<Layout> layout() {
    return layout;
  }

  /** What is kept of each module, in the order of the rows. */
  List<Kept> kept() {
    return kept;
  }

  Kept helpers() {
    return helpers;
  }

  /** Functions that are called and that neither a module nor the library has. */
  List<String> missing() {
    return missing;
  }

  int stack() {
    return stack;
  }

  List<Step> stackPath() {
    return stackPath;
  }

  private void register(int owner) {
    Map<String, Cost> names = new HashMap<>();
    for (Cost cost : rows.get(owner).costs()) {
      names.put(cost.symbol().name(), cost);
      if (!cost.symbol().local()) {
        globals.put(cost.symbol().name(), cost);
        owners.put(cost.symbol().name(), owner);
      }
    }
    own.add(names);
    kept.add(new Kept());
  }

  private void keepRoots() {
    keep(HELPERS, "main", true);
    for (int i = 0; i < rows.size(); i++) {
      for (Cost cost : rows.get(i).costs()) {
        if (StackBound.isHandler(cost.symbol().name())) {
          handlers.add(keep(i, cost).function());
        }
      }
      for (String need : rows.get(i).needs()) {
        keep(i, need, true);
      }
    }
  }

  private void keep(int from, String name, boolean called) {
    if (resolve(from, name).isEmpty() && called && !missing.contains(name)) {
      missing.add(name);
    }
  }

  /** Finds a name as a linker does: in the same file, in the others, in the library. */
  private Optional<Node> resolve(int from, String name) {
    Cost local = from == HELPERS ? null : own.get(from).get(name);
    if (local != null) {
      return Optional.of(keep(from, local));
    }
    Cost global = globals.get(name);
    if (global != null) {
      return Optional.of(keep(owners.get(name), global));
    }
    return library.flatMap(table -> table.row(name)).map(this::keepHelper);
  }

  private Node keepHelper(CostRow row) {
    Cost cost = row.costs().get(0);
    boolean known = nodes.containsKey(cost);
    Node node = keep(HELPERS, cost);
    if (!known) {
      row.needs().forEach(need -> keep(HELPERS, need, true));
    }
    return node;
  }

  private Node keep(int owner, Cost cost) {
    Node known = nodes.get(cost);
    if (known != null) {
      return known;
    }
    Symbol symbol = cost.symbol();
    Node node =
        new Node(owner, cost, graph.add(symbol.name(), symbol.ownStack(), Optional.empty()));
    nodes.put(cost, node);
    work.add(node);
    romData += symbol.kind() == Symbol.Kind.RODATA ? symbol.bytes() : 0;
    (owner == HELPERS ? helpers : kept.get(owner)).add(cost, machine);
    return node;
  }

  private void connect(Node node) {
    for (Edge edge : node.cost().symbol().edges()) {
      if (isCall(edge)) {
        resolve(node.owner(), edge.target())
            .ifPresent(
                to ->
                    graph.connect(
                        node.function(),
                        to.function(),
                        edge.depth(),
                        edge.type() == Edge.Type.CALL));
      }
    }
  }

  /** A place in a piece. */
  private record Spot(Cost piece, int offset) {}

  private List<Piece> pieces(List<Node> order) {
    Map<Cost, List<Piece.Reach>> reaches = new java.util.IdentityHashMap<>();
    for (Node node : order) {
      List<Piece.Reach> own = reaches.computeIfAbsent(spot(node).piece(), any -> new ArrayList<>());
      for (Site site : node.cost().sites()) {
        resolve(node.owner(), site.target())
            .map(this::spot)
            .ifPresent(to -> own.add(new Piece.Reach(site, to.piece(), to.offset())));
      }
    }
    return order.stream()
        .filter(node -> node.cost().symbol().place() instanceof Place.Aligned)
        .map(node -> piece(node, reaches.getOrDefault(node.cost(), List.of())))
        .toList();
  }

  private static Piece piece(Node node, List<Piece.Reach> reaches) {
    int alignment = ((Place.Aligned) node.cost().symbol().place()).bytes();
    return new Piece(node.owner(), node.cost(), alignment, reaches);
  }

  private Spot spot(Node node) {
    return node.cost().symbol().place() instanceof Place.Inside inside
        ? resolve(node.owner(), inside.symbol())
            .map(this::spot)
            .map(spot -> new Spot(spot.piece(), spot.offset() + inside.offset()))
            .orElse(new Spot(node.cost(), 0))
        : new Spot(node.cost(), 0);
  }

  private void measureStack() {
    int main =
        nodes.containsKey(globals.get("main")) ? nodes.get(globals.get("main")).function() : 0;
    StackPath path = graph.deepest(main);
    StackPath interrupt = graph.deepest(handlers.stream().mapToInt(Integer::intValue).toArray());
    path.unbounded()
        .or(interrupt::unbounded)
        .ifPresent(
            why -> {
              throw new IllegalStateException("The modules have no bound on the stack: " + why);
            });
    int frame = handlers.isEmpty() ? 0 : machine.interruptFrame();
    stack = path.bytes() + frame + interrupt.bytes();
    path.steps().forEach(step -> stackPath.add(new Step(step.function(), step.bytes())));
    if (frame > 0) {
      stackPath.add(new Step("(interrupt)", frame));
    }
    interrupt.steps().forEach(step -> stackPath.add(new Step(step.function(), step.bytes())));
  }

  private static boolean isCall(Edge edge) {
    return edge.type() != Edge.Type.REFERENCE;
  }
}
