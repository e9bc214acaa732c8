package dev.ullage.sizing;

import dev.ullage.measure.Symbol;
import dev.ullage.measure.Symbol.Edge;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What one module, or one helper, was measured to bring.
 *
 * <p>As text it is the fields of a line, apart from the key that stands before them:
 *
 * <pre>
 * C name 54+10*ask 2 read@2 next>0 window
 * +__do_clear_bss
 * </pre>
 *
 * <p>The first field is a symbol: its kind ({@code C}ode, {@code R}OM data, initialised {@code
 * D}ata, {@code Z}ero-initialised data, {@code E}EPROM; a small letter for a local one), name,
 * bytes with what each step of a count adds, own stack, and edges: {@code @} a call and {@code >} a
 * jump, each with the depth, alone a reference. The second is a need.
 */
final class CostRow {
  private static final String KINDS = "CRDZE";

  /** A symbol, its bytes without the share of the counts, and that share for each step. */
  record Cost(Symbol symbol, SortedMap<String, Integer> steps) {
    Cost {
      steps = Collections.unmodifiableSortedMap(new TreeMap<>(steps));
    }
  }

  private final String key;
  private final List<Cost> costs;
  private final List<String> needs;

  CostRow(String key, List<Cost> costs, List<String> needs) {
    this.key = key;
    this.costs = List.copyOf(costs);
    this.needs = List.copyOf(needs);
  }

  String key() {
    return key;
  }

  List<Cost> costs() {
    return costs;
  }

  List<String> needs() {
    return needs;
  }

  /** All bytes of program memory, kept by the linker or not, without the share of the counts. */
  int flashBytes() {
    return costs.stream()
        .filter(cost -> cost.symbol().kind().inFlash())
        .mapToInt(cost -> cost.symbol().bytes())
        .sum();
  }

  /** All bytes of RAM, kept by the linker or not. */
  int ramBytes() {
    return costs.stream()
        .filter(cost -> cost.symbol().kind().inRam())
        .mapToInt(cost -> cost.symbol().bytes())
        .sum();
  }

  String text() {
    List<String> fields = new ArrayList<>();
    costs.forEach(cost -> fields.add(text(cost)));
    needs.forEach(need -> fields.add('+' + need));
    return String.join("\t", fields);
  }

  static CostRow parse(String key, String text) {
    List<Cost> costs = new ArrayList<>();
    List<String> needs = new ArrayList<>();
    for (String field : text.isEmpty() ? new String[0] : text.split("\t")) {
      if (field.startsWith("+")) {
        needs.add(field.substring(1));
      } else {
        costs.add(cost(field));
      }
    }
    return new CostRow(key, costs, needs);
  }

  private static String text(Cost cost) {
    Symbol symbol = cost.symbol();
    char kind = KINDS.charAt(symbol.kind().ordinal());
    StringBuilder text = new StringBuilder();
    text.append(symbol.local() ? Character.toLowerCase(kind) : kind);
    text.append(' ').append(symbol.name()).append(' ').append(symbol.bytes());
    cost.steps()
        .forEach((count, bytes) -> text.append('+').append(bytes).append('*').append(count));
    text.append(' ').append(symbol.ownStack());
    symbol.edges().forEach(edge -> text.append(' ').append(text(edge)));
    return text.toString();
  }

  private static String text(Edge edge) {
    return switch (edge.type()) {
      case CALL -> edge.target() + '@' + edge.depth();
      case TAIL -> edge.target() + '>' + edge.depth();
      case REFERENCE -> edge.target();
    };
  }

  private static Cost cost(String field) {
    String[] words = field.split(" ");
    char kind = words[0].charAt(0);
    String[] bytes = words[2].split("\\+");
    SortedMap<String, Integer> steps = new TreeMap<>();
    for (int i = 1; i < bytes.length; i++) {
      int star = bytes[i].indexOf('*');
      steps.put(bytes[i].substring(star + 1), Integer.valueOf(bytes[i].substring(0, star)));
    }
    List<Edge> edges = new ArrayList<>();
    for (int i = 4; i < words.length; i++) {
      edges.add(edge(words[i]));
    }
    Symbol symbol =
        new Symbol(
            words[1],
            Character.isLowerCase(kind),
            Symbol.Kind.values()[KINDS.indexOf(Character.toUpperCase(kind))],
            Integer.parseInt(bytes[0]),
            Integer.parseInt(words[3]),
            edges,
            Optional.empty());
    return new Cost(symbol, steps);
  }

  private static Edge edge(String word) {
    int call = word.indexOf('@');
    int mark = call < 0 ? word.indexOf('>') : call;
    if (mark < 0) {
      return new Edge(word, 0, Edge.Type.REFERENCE);
    }
    return new Edge(
        word.substring(0, mark),
        Integer.parseInt(word.substring(mark + 1)),
        call < 0 ? Edge.Type.TAIL : Edge.Type.CALL);
  }

  /** The traits in a key such as {@code average[kind=moving,sum=s16]}. */
  static Map<String, String> traits(String key) {
    Map<String, String> traits = new TreeMap<>();
    String inside = key.substring(key.indexOf('[') + 1, key.length() - 1);
    for (String trait : inside.isEmpty() ? new String[0] : inside.split(",")) {
      int equals = trait.indexOf('=');
      traits.put(trait.substring(0, equals), trait.substring(equals + 1));
    }
    return traits;
  }

  /** The key of a module with these traits. */
  static String key(String module, Map<String, String> traits) {
    List<String> parts = new ArrayList<>();
    new TreeMap<>(traits).forEach((name, value) -> parts.add(name + '=' + value));
    return module + '[' + String.join(",", parts) + ']';
  }
}
