package dev.ullage.slim;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Takes back from a choice that fits what it can do without, the heaviest first. What is left is
 * not always the cheapest set, but none of its changes can be left out.
 */
final class Milder {
  private final Probe probe;
  private final Map<Aspect, List<Change>> options;

  Milder(Probe probe, Map<Aspect, List<Change>> options) {
    this.probe = probe;
    this.options = options;
  }

  Choice than(Choice fitting) {
    Choice best = fitting;
    Choice before;
    do {
      before = best;
      for (Change change : heaviestFirst(best)) {
        best = milder(best, change);
      }
    } while (!best.equals(before));
    return best;
  }

  private static List<Change> heaviestFirst(Choice choice) {
    return choice.changes().stream()
        .sorted(Comparator.comparingInt(Change::weight).reversed())
        .toList();
  }

  private Choice milder(Choice choice, Change change) {
    Stream<Optional<Change>> ways =
        options.get(change.aspect()).stream()
            .filter(other -> other.weight() < change.weight())
            .map(Optional::of);
    return Stream.concat(Stream.of(Optional.<Change>empty()), ways)
        .map(way -> choice.with(change.aspect(), way))
        .filter(probe::fits)
        .findFirst()
        .orElse(choice);
  }
}
