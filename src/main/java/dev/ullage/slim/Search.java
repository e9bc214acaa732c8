package dev.ullage.slim;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Set;

/**
 * Looks through sets of changes from the cheapest on (best first, by a bound that never is more
 * than the weight of what a set can become), each tried with a real plan and a real estimate, so
 * that the first that fits is the cheapest there is and none of its changes can be left out. Goes
 * on for sets that leave alone something that every set before it changes.
 */
final class Search {
  static final int MOST_SETS = 4;

  private final Bench bench;
  private final List<Change> changes;
  private final Map<Aspect, Integer> needed;
  private final int mostTrials;
  private final List<Found> found = new ArrayList<>();
  private final PriorityQueue<Node> open =
      new PriorityQueue<>(
          Comparator.comparingInt(Node::least)
              .thenComparingInt(node -> node.changes().size())
              .thenComparingLong(Node::number));
  private final Set<Memory> missed = EnumSet.noneOf(Memory.class);
  private long numbered;
  private boolean complete = true;

  /**
   * @param changes in the order of their aspects
   * @param needed what every set that fits must change
   * @param mostTrials after which it gives up
   */
  Search(Bench bench, List<Change> changes, Set<Aspect> needed, int mostTrials) {
    this.bench = bench;
    this.changes = List.copyOf(changes);
    this.needed = lightest(changes, needed);
    this.mostTrials = mostTrials;
  }

  private static Map<Aspect, Integer> lightest(List<Change> changes, Set<Aspect> needed) {
    Map<Aspect, Integer> weights = new EnumMap<>(Aspect.class);
    changes.stream()
        .filter(change -> needed.contains(change.aspect()))
        .forEach(change -> weights.merge(change.aspect(), change.weight(), Math::min));
    return weights;
  }

  /** A set of changes, and the loop that they make fit. */
  record Found(List<Change> changes, Trial trial) {
    int weight() {
      return changes.stream().mapToInt(Change::weight).sum();
    }

    private boolean isPartOf(Node node) {
      return changes.stream().allMatch(change -> node.touches(change.aspect()));
    }
  }

  /**
   * A set to try.
   *
   * @param next where in the list of changes its continuations begin
   * @param least what it weighs with the lightest of what is needed besides
   * @param complete nothing is needed besides
   * @param number to keep the order of equal ones
   */
  private record Node(List<Change> changes, int next, int least, boolean complete, long number) {
    boolean touches(Aspect aspect) {
      return changes.stream().anyMatch(change -> change.aspect() == aspect);
    }
  }

  /** Up to {@link #MOST_SETS} sets, the cheapest first. */
  List<Found> run() {
    int last = bench.trials() + mostTrials;
    open.add(node(List.of(), 0));
    while (!open.isEmpty() && found.size() < MOST_SETS) {
      Node node = open.remove();
      if (isTooDear(node)) {
        return found;
      }
      if (bench.trials() >= last) {
        complete = false;
        return found;
      }
      if (found.stream().noneMatch(one -> one.isPartOf(node)) && !fits(node)) {
        addContinuations(node);
      }
    }
    return found;
  }

  /** False where the search was given up; then what it found is the cheapest all the same. */
  boolean isComplete() {
    return complete;
  }

  /** Memories that were short in anything that was tried. */
  Set<Memory> missed() {
    return missed;
  }

  /** An alternative that takes much more from the user is none. */
  private boolean isTooDear(Node node) {
    return !found.isEmpty() && node.least() > 2 * found.get(0).weight() + 4;
  }

  private boolean fits(Node node) {
    if (!node.complete()) {
      return false;
    }
    Optional<Trial> tried = bench.changed(node.changes());
    tried.ifPresent(this::noteMissing);
    Optional<Trial> trial =
        tried.filter(Trial::fits).filter(t -> Alternatives.keepsTheRules(t.loop()));
    trial.ifPresent(t -> found.add(new Found(node.changes(), t)));
    return trial.isPresent();
  }

  private void noteMissing(Trial trial) {
    for (Memory memory : Memory.values()) {
      if (memory.missingIn(trial) > 0) {
        missed.add(memory);
      }
    }
  }

  private void addContinuations(Node node) {
    for (int i = node.next(); i < changes.size(); i++) {
      Change change = changes.get(i);
      if (passesOver(node, change.aspect())) {
        return;
      }
      if (!node.touches(change.aspect())) {
        List<Change> longer = new ArrayList<>(node.changes());
        longer.add(change);
        open.add(node(List.copyOf(longer), i + 1));
      }
    }
  }

  /** Whether something that is needed would be left out for good. */
  private boolean passesOver(Node node, Aspect aspect) {
    return needed.keySet().stream()
        .anyMatch(need -> need.compareTo(aspect) < 0 && !node.touches(need));
  }

  private Node node(List<Change> made, int next) {
    int weight = made.stream().mapToInt(Change::weight).sum();
    Set<Aspect> rest = EnumSet.noneOf(Aspect.class);
    rest.addAll(needed.keySet());
    made.forEach(change -> rest.remove(change.aspect()));
    int least = weight + rest.stream().mapToInt(needed::get).sum();
    return new Node(made, next, least, rest.isEmpty(), numbered++);
  }
}
