package dev.ullage.slim;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Margin;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Optional;

/** Where loops are tried on one target: a real plan and a real estimate for each. */
final class Bench {
  /** A sizing keeps what it has found for every plan, and each trial is another plan. */
  private static final int TRIALS_PER_SIZING = 500;

  private final Loop loop;
  private final Target target;
  private final CostTables costs;
  private final Margin margin;
  private Sizing sizing;
  private int trials;

  /**
   * @param loop what every trial is a changed form of
   * @param margin what must stay free
   */
  Bench(Loop loop, Target target, CostTables costs, Margin margin) {
    this.loop = loop;
    this.target = target;
    this.costs = costs;
    this.margin = margin;
    this.sizing = new Sizing(costs);
  }

  /** The loop as it is. */
  Trial unchanged() {
    return trial(loop);
  }

  /** The loop with changes, made in the order of their aspects; empty where they cannot be made. */
  Optional<Trial> changed(List<Change> changes) {
    return made(changes).map(this::trial);
  }

  /** Whether the changes can be made together. */
  boolean allows(List<Change> changes) {
    return made(changes).isPresent();
  }

  private Optional<Loop> made(List<Change> changes) {
    Optional<Loop> changed = Optional.of(loop);
    for (Change change : changes) {
      changed = changed.flatMap(change::apply);
    }
    return changed;
  }

  /** How many loops were tried so far. */
  int trials() {
    return trials;
  }

  private Trial trial(Loop changed) {
    if (++trials % TRIALS_PER_SIZING == 0) {
      sizing = new Sizing(costs);
    }
    Plan plan = Plan.of(changed, target);
    return plan instanceof Plan.Possible possible
        ? planned(changed, possible.firmware())
        : lacking(changed, (Plan.Impossible) plan);
  }

  private static Trial lacking(Loop changed, Plan.Impossible plan) {
    return new Trial(changed, Optional.of(plan.lack()), Optional.empty(), Optional.empty());
  }

  private Trial planned(Loop changed, Firmware plan) {
    Estimate estimate = sizing.estimate(target, plan.modules(), plan.buffers());
    Optional<Trial.Needed> needed =
        Optional.of(estimate)
            .filter(known -> known.grade() != Estimate.Grade.LISTED)
            .map(e -> Trial.Needed.of(e, Headroom.of(target, e, changed.bring(), margin)));
    return new Trial(changed, Optional.empty(), Optional.of(plan), needed);
  }
}
