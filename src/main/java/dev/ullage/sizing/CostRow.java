package dev.ullage.sizing;

import dev.ullage.measure.Symbol;
import dev.ullage.measure.Symbol.Edge;
import dev.ullage.measure.Symbol.Place;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;

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
 * D}ata, {@code Z}ero-initialised data, {@code E}EPROM, code to e{@code X}ecute in RAM; a small
 * letter for a local one), name, bytes with what each step of a count adds, own stack, and edges:
 * {@code @} a call and {@code >} a jump, each with the depth, alone a reference. The second is a
 * need.
 *
 * <p>On 32-bit cores there is more to say of places:
 *
 * <pre>
 * C ask 90/2+22*ask 8 put@8~16*ask,40+ask window~8
 * C __modsi3 0/__divsi3@132 0 __udivsi3@0
 * </pre>
 *
 * <p>Behind bytes comes what the address is a multiple of, if not of 1, or the symbol that this one
 * is inside of, and where; behind an edge, where the linker may shorten what reaches the target, as
 * {@link Site#text}.
 */
final class CostRow {
  private static final String KINDS = "CRDZEX";

  /**
   * A symbol, its bytes without the share of the counts, and that share for each step.
   *
   * @param sites where the linker may shorten it; the edges say nothing of that
   */
  record Cost(Symbol symbol, SortedMap<String, Integer> steps, List<Site> sites) {
    Cost {
      steps = Collections.unmodifiableSortedMap(new TreeMap<>(steps));
      sites = List.copyOf(sites);
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
    text.append(text(symbol.place()));
    cost.steps()
        .forEach((count, bytes) -> text.append('+').append(bytes).append('*').append(count));
    text.append(' ').append(symbol.ownStack());
    Set<String> told = new HashSet<>();
    for (Edge edge : symbol.edges()) {
      text.append(' ').append(text(edge));
      String sites =
          cost.sites().stream()
              .filter(site -> site.target().equals(edge.target()))
              .map(Site::text)
              .collect(Collectors.joining(","));
      if (!sites.isEmpty() && told.add(edge.target())) {
        text.append('~').append(sites);
      }
    }
    return text.toString();
  }

  private static String text(Place place) {
    if (place instanceof Place.Inside inside) {
      return '/' + inside.symbol() + '@' + inside.offset();
    }
    return place.equals(Place.ANYWHERE) ? "" : "/" + ((Place.Aligned) place).bytes();
  }

  /** What a field says of bytes and place, without the steps. */
  private static Place place(String text) {
    int slash = text.indexOf('/');
    if (slash < 0) {
      return Place.ANYWHERE;
    }
    int at = text.lastIndexOf('@');
    return at < 0
        ? new Place.Aligned(Integer.parseInt(text.substring(slash + 1)))
        : new Place.Inside(text.substring(slash + 1, at), Integer.parseInt(text.substring(at + 1)));
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
    // Only what has no bytes of its own is inside of another symbol, so it has no steps either.
    boolean inside = words[2].indexOf('@') > 0;
    String[] bytes = inside ? new String[] {words[2]} : words[2].split("\\+");
    SortedMap<String, Integer> steps = new TreeMap<>();
    for (int i = 1; i < bytes.length; i++) {
      int star = bytes[i].indexOf('*');
      steps.put(bytes[i].substring(star + 1), Integer.valueOf(bytes[i].substring(0, star)));
    }
    List<Edge> edges = new ArrayList<>();
    List<Site> sites = new ArrayList<>();
    for (int i = 4; i < words.length; i++) {
      String[] parts = words[i].split("~");
      edges.add(edge(parts[0]));
      for (String site : parts.length == 1 ? new String[0] : parts[1].split(",")) {
        sites.add(Site.parse(edges.get(edges.size() - 1).target(), site));
      }
    }
    int slash = bytes[0].indexOf('/');
    Symbol symbol =
        new Symbol(
            words[1],
            Character.isLowerCase(kind),
            Symbol.Kind.values()[KINDS.indexOf(Character.toUpperCase(kind))],
            Integer.parseInt(slash < 0 ? bytes[0] : bytes[0].substring(0, slash)),
            Integer.parseInt(words[3]),
            edges,
            Optional.empty(),
            place(bytes[0]));
    return new Cost(symbol, steps, sites);
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
