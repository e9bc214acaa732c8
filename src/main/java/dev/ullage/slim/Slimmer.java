package dev.ullage.slim;

import dev.ullage.loop.Loop;
import dev.ullage.loop.Margin;
import dev.ullage.sizing.CostTables;
import dev.ullage.slim.Slimming.Outcome;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** Finds what to change in a loop so that it fits a target. */
public final class Slimmer {
  /** Some seconds' work; a set of five changes out of thirty comes before that. */
  private static final int MOST_TRIALS = 20_000;

  private static final Margin NO_MARGIN = new Margin(0, 0);

  private final Target target;
  private final CostTables costs;
  private final Set<Aspect> kept;
  private final int mostTrials;

  /**
   * @param kept what must stay as it is
   */
  public Slimmer(Target target, CostTables costs, Set<Aspect> kept) {
    this(target, costs, kept, MOST_TRIALS);
  }

  /** A search that gives up sooner. */
  Slimmer(Target target, CostTables costs, Set<Aspect> kept, int mostTrials) {
    this.target = target;
    this.costs = costs;
    this.kept = Set.copyOf(kept);
    this.mostTrials = mostTrials;
  }

  /** What makes it fit with its margin, or if that cannot be had, then without. */
  public Slimming slim(Loop loop) {
    Attempt with = attempt(loop, loop.margin());
    Trial unchanged = with.unchanged();
    if (unchanged.fits()) {
      return answer(with, Outcome.FITS, List.of());
    }
    if (unchanged.plan().isPresent() && unchanged.needed().isEmpty()) {
      return answer(with, Outcome.NOT_MEASURED, List.of());
    }
    List<SlimSet> sets = with.sets();
    if (!sets.isEmpty()) {
      return answer(with, Outcome.SLIMMED, sets);
    }
    Attempt without = attempt(loop, NO_MARGIN);
    List<SlimSet> tight = without.unchanged().fits() ? List.of() : without.sets();
    return tight.isEmpty()
        ? answer(with, Outcome.NOTHING, tight)
        : answer(without, Outcome.WITHOUT_MARGIN, tight);
  }

  private Attempt attempt(Loop loop, Margin margin) {
    return new Attempt(
        new Bench(loop, target, costs, margin), Alternatives.of(loop, target, kept), mostTrials);
  }

  private Slimming answer(Attempt attempt, Outcome outcome, List<SlimSet> sets) {
    Trial unchanged = attempt.unchanged();
    Optional<Trial> nearest = outcome == Outcome.NOTHING ? attempt.nearest() : Optional.empty();
    return new Slimming(
        unchanged.loop(),
        target,
        outcome,
        sets,
        unchanged,
        nearest,
        attempt.trials(),
        attempt.isCheapest());
  }
}
