package dev.ullage.sizing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.ToIntFunction;

/**
 * A module as it was measured, or the most similar one that was.
 *
 * <p>Where the traits differ, the sizes are corrected by what the same difference makes between
 * other measured modules of that name; how much that varies is the spread.
 *
 * @param exact whether it was measured as it is
 * @param flash bytes to add to the flash of the row
 * @param ram bytes to add to its RAM
 * @param spread bytes that the flash may be off
 */
record Neighbour(CostRow row, boolean exact, int flash, int ram, int spread) {

  /** Empty where no module of that name was measured. */
  static Optional<Neighbour> find(CostTable table, String key) {
    Optional<Neighbour> exact = table.row(key).map(row -> new Neighbour(row, true, 0, 0, 0));
    return exact.isPresent() ? exact : nearest(table, key);
  }

  private static Optional<Neighbour> nearest(CostTable table, String key) {
    String module = key.substring(0, key.indexOf('['));
    Map<String, String> wanted = CostRow.traits(key);
    return table.keys(module + '[').stream()
        .min(Comparator.comparingInt(each -> differing(CostRow.traits(each), wanted).size()))
        .map(each -> corrected(table, module, each, wanted));
  }

  private static Neighbour corrected(
      CostTable table, String module, String from, Map<String, String> wanted) {
    CostRow row = table.row(from).orElseThrow();
    Map<String, String> traits = CostRow.traits(from);
    int flash = 0;
    int ram = 0;
    int spread = 0;
    for (String trait : differing(traits, wanted)) {
      List<CostRow[]> pairs = pairs(table, module, trait, traits.get(trait), wanted.get(trait));
      if (pairs.isEmpty()) {
        spread += Policy.unknown(row.flashBytes());
      } else {
        List<Integer> changes = changes(pairs, CostRow::flashBytes);
        int middle = changes.get(changes.size() / 2);
        flash += middle;
        ram += changes(pairs, CostRow::ramBytes).get(pairs.size() / 2);
        int most = Math.max(middle - changes.get(0), changes.get(changes.size() - 1) - middle);
        spread += pairs.size() == 1 ? Policy.unknown(Math.abs(middle)) : most + 2;
      }
    }
    return new Neighbour(row, false, flash, ram, spread);
  }

  /** Measured modules that differ in that one trait only, and in that way. */
  private static List<CostRow[]> pairs(
      CostTable table, String module, String trait, String from, String to) {
    List<CostRow[]> pairs = new ArrayList<>();
    if (from == null || to == null) {
      return pairs;
    }
    for (String key : table.keys(module + '[')) {
      Map<String, String> traits = CostRow.traits(key);
      if (from.equals(traits.get(trait))) {
        traits.put(trait, to);
        table
            .row(CostRow.key(module, traits))
            .ifPresent(other -> pairs.add(new CostRow[] {table.row(key).orElseThrow(), other}));
      }
    }
    return pairs;
  }

  private static List<Integer> changes(List<CostRow[]> pairs, ToIntFunction<CostRow> bytes) {
    return pairs.stream()
        .map(pair -> bytes.applyAsInt(pair[1]) - bytes.applyAsInt(pair[0]))
        .sorted()
        .toList();
  }

  private static Set<String> differing(Map<String, String> one, Map<String, String> other) {
    Set<String> names = new HashSet<>(one.keySet());
    names.addAll(other.keySet());
    names.removeIf(name -> one.getOrDefault(name, "").equals(other.getOrDefault(name, "")));
    return names;
  }
}
