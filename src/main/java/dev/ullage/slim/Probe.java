package dev.ullage.slim;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * What is known of the changes before any are combined: what each does to the loop as it is, and
 * what each does where everything else is already as lean as can be. What two changes save together
 * may be more than each saves alone (a routine goes when its last caller does) or less; but then
 * the one or the other end shows it.
 */
final class Probe {
  private final Bench bench;
  private final List<Change> changes;
  private final Trial unchanged;
  private final Leanest search;
  private final Map<Aspect, List<Change>> options;
  private final Map<Choice, Optional<Trial>> tried = new HashMap<>();
  private final Map<Memory, Choice> leanest = new EnumMap<>(Memory.class);
  private Optional<Choice> nearest = Optional.empty();

  Probe(Bench bench, List<Change> changes) {
    this.bench = bench;
    this.changes = changes;
    this.unchanged = bench.unchanged();
    this.options = byAspect(changes);
    this.search = new Leanest(bench, options, this::trial);
  }

  private static Map<Aspect, List<Change>> byAspect(List<Change> changes) {
    return changes.stream()
        .collect(
            Collectors.groupingBy(
                Change::aspect, () -> new EnumMap<>(Aspect.class), Collectors.toList()));
  }

  Map<Aspect, List<Change>> options() {
    return options;
  }

  Trial unchanged() {
    return unchanged;
  }

  /** The change and nothing else; empty where it cannot be made alone. */
  Optional<Trial> alone(Change change) {
    return trial(Choice.NOTHING.with(change.aspect(), Optional.of(change)));
  }

  /** The choice that misses the least, of all that there are. */
  Choice nearest() {
    if (nearest.isEmpty()) {
      nearest = Optional.of(search.by(Probe::missing));
    }
    return nearest.get();
  }

  private static int missing(Trial trial) {
    return trial.needed().isPresent() ? trial.shortFlash() + trial.shortRam() : Memory.WITHOUT_PLAN;
  }

  /** Whether the changes can be made, fit, and leave a loop that keeps the rules. */
  boolean fits(Choice choice) {
    return trial(choice)
        .filter(Trial::fits)
        .filter(trial -> Alternatives.keepsTheRules(trial.loop()))
        .isPresent();
  }

  /** Memories that are short, or get short by a change; any may be where there is no plan yet. */
  Set<Memory> atStake() {
    if (unchanged.lack().isPresent()) {
      return EnumSet.allOf(Memory.class);
    }
    Set<Memory> stake = EnumSet.noneOf(Memory.class);
    for (Memory memory : Memory.values()) {
      boolean ofAny =
          changes.stream()
              .flatMap(change -> alone(change).stream())
              .anyMatch(trial -> memory.missingIn(trial) > 0);
      if (ofAny || memory.missingIn(unchanged) > 0) {
        stake.add(memory);
      }
    }
    return stake;
  }

  /** Whether a change can be of use; where the target lacks something, any may be. */
  boolean helps(Change change, Set<Memory> stake) {
    return unchanged.lack().isPresent() || stake.stream().anyMatch(memory -> saves(change, memory));
  }

  private boolean saves(Change change, Memory memory) {
    int before = memory.neededIn(unchanged);
    return alone(change).filter(trial -> memory.neededIn(trial) < before).isPresent()
        || savesAtTheLean(change, memory);
  }

  private boolean savesAtTheLean(Change change, Memory memory) {
    Choice lean = leanest(memory);
    Optional<Trial> with = trial(lean.with(change.aspect(), Optional.of(change)));
    Optional<Trial> without = trial(lean.with(change.aspect(), Optional.empty()));
    return with.isPresent()
        && (without.isEmpty() || memory.neededIn(with.get()) < memory.neededIn(without.get()));
  }

  /**
   * Whether an aspect can be so (or with nothing, as it is) in a set that fits: not if a memory is
   * then short even where all else is as lean as can be.
   */
  boolean canBe(Aspect aspect, Optional<Change> way, Set<Memory> stake) {
    return stake.stream().allMatch(memory -> canBe(aspect, way, memory));
  }

  /** The rest may have to be lean in another way then. */
  private boolean canBe(Aspect aspect, Optional<Change> way, Memory memory) {
    Choice lean = leanest(memory).with(aspect, way);
    return !isShort(lean, memory)
        || !isShort(search.keeping(lean, aspect, memory::neededIn), memory);
  }

  private boolean isShort(Choice choice, Memory memory) {
    return trial(choice).filter(trial -> memory.missingIn(trial) > 0).isPresent();
  }

  private Choice leanest(Memory memory) {
    return leanest.computeIfAbsent(memory, least -> search.by(least::neededIn));
  }

  /** What comes of a choice; empty where its changes cannot be made together. */
  Optional<Trial> trial(Choice choice) {
    Optional<Trial> known = tried.get(choice);
    if (known == null) {
      known = bench.changed(choice.changes());
      tried.put(choice, known);
    }
    return known;
  }
}
