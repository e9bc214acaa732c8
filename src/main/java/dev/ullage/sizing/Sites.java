package dev.ullage.sizing;

import dev.ullage.measure.Symbol;
import dev.ullage.measure.Symbol.Edge;
import java.util.ArrayList;
import java.util.List;

/** Finds out which of the places that a linker may shorten go by a count, and how. */
final class Sites {
  private Sites() {}

  /** As they are. */
  static List<Site> of(Symbol symbol) {
    return symbol.edges().stream()
        .flatMap(
            edge -> edge.sites().stream().map(offset -> new Site(edge.target(), offset, "", false)))
        .toList();
  }

  /** Edges without places. */
  static List<Edge> bare(List<Edge> edges) {
    return edges.stream().map(edge -> new Edge(edge.target(), edge.depth(), edge.type())).toList();
  }

  /**
   * As they go by a count.
   *
   * @param value of the count as the symbol was compiled
   * @param more the same with one more
   * @throws IllegalArgumentException where one more does more than repeat a stretch of code
   */
  static List<Site> of(Symbol symbol, String count, int value, Symbol more) {
    int step = more.bytes() - symbol.bytes();
    List<Site> sites = new ArrayList<>();
    for (int i = 0; i < symbol.edges().size(); i++) {
      Edge edge = symbol.edges().get(i);
      List<Integer> one = edge.sites();
      List<Integer> other = more.edges().get(i).sites();
      int same = 0;
      while (same < Math.min(one.size(), other.size()) && one.get(same).equals(other.get(same))) {
        same++;
      }
      int added = other.size() - one.size();
      List<Integer> fixed = new ArrayList<>(one.subList(0, same));
      List<Site> counted = new ArrayList<>();
      for (int j = same; j < same + added; j++) {
        int first = other.get(j) - value * step;
        for (int k = 0; k < value; k++) {
          require(fixed.remove(Integer.valueOf(first + k * step)), symbol);
        }
        counted.add(new Site(edge.target(), first, count, true));
      }
      for (int j = same; j < one.size(); j++) {
        require(added >= 0 && other.get(j + added) == one.get(j) + step, symbol);
        counted.add(new Site(edge.target(), one.get(j) - value * step, count, false));
      }
      fixed.forEach(offset -> sites.add(new Site(edge.target(), offset, "", false)));
      sites.addAll(counted);
    }
    return sites;
  }

  private static void require(boolean met, Symbol symbol) {
    if (!met) {
      throw new IllegalArgumentException(
          "A step does more in `" + symbol.name() + "` than to repeat its code.");
    }
  }
}
