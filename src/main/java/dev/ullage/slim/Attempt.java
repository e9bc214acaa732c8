package dev.ullage.slim;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The whole way from a loop that does not fit to the sets of changes that make it fit. */
final class Attempt {
  private final Bench bench;
  private final List<Change> changes;
  private final int mostTrials;
  private final Probe probe;
  private boolean cheapest = true;

  Attempt(Bench bench, List<Change> changes, int mostTrials) {
    this.bench = bench;
    this.changes = changes;
    this.mostTrials = mostTrials;
    this.probe = new Probe(bench, changes);
  }

  Trial unchanged() {
    return probe.unchanged();
  }

  /** Of all that can be made of the loop, what misses least. */
  Optional<Trial> nearest() {
    return probe.trial(probe.nearest()).filter(trial -> trial.plan().isPresent());
  }

  int trials() {
    return bench.trials();
  }

  /** False where the search was given up. */
  boolean isCheapest() {
    return cheapest;
  }

  /** The sets, the cheapest first; none where nothing helps. */
  List<SlimSet> sets() {
    if (!probe.fits(probe.nearest())) {
      return List.of();
    }
    return searched().stream().map(this::set).toList();
  }

  /** A memory that gets short only by several changes at once brings its own changes in. */
  private List<Search.Found> searched() {
    Set<Memory> stake = EnumSet.copyOf(probe.atStake());
    while (true) {
      Search search = new Search(bench, useful(stake), needed(stake), mostTrials);
      List<Search.Found> found = search.run();
      if (stake.addAll(search.missed())) {
        continue;
      }
      cheapest = search.isComplete() || !found.isEmpty();
      return found.isEmpty() ? List.of(undone()) : found;
    }
  }

  private List<Change> useful(Set<Memory> stake) {
    return changes.stream()
        .filter(change -> probe.helps(change, stake))
        .filter(change -> probe.canBe(change.aspect(), Optional.of(change), stake))
        .toList();
  }

  /** What every set must change. */
  private Set<Aspect> needed(Set<Memory> stake) {
    Set<Aspect> needed = EnumSet.noneOf(Aspect.class);
    for (Aspect aspect : probe.options().keySet()) {
      if (!probe.canBe(aspect, Optional.empty(), stake)) {
        needed.add(aspect);
      }
    }
    return needed;
  }

  private Search.Found undone() {
    Choice choice = new Milder(probe, probe.options()).than(probe.nearest());
    return new Search.Found(choice.changes(), probe.trial(choice).orElseThrow());
  }

  private SlimSet set(Search.Found found) {
    List<SlimSet.Step> steps =
        found.changes().stream().map(change -> step(change, found.trial())).toList();
    return new SlimSet(steps, Saving.between(unchanged(), found.trial()), found.trial());
  }

  private SlimSet.Step step(Change change, Trial slimmed) {
    return new SlimSet.Step(
        change,
        change.lossOn(slimmed.plan().orElseThrow()),
        probe.alone(change).flatMap(trial -> Saving.between(unchanged(), trial)));
  }
}
