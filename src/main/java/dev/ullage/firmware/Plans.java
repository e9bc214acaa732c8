package dev.ullage.firmware;

import dev.ullage.loop.Loop;
import dev.ullage.target.Clock;
import dev.ullage.target.Family;
import dev.ullage.target.Package;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/** Plans one loop on many targets. Targets that differ in their memories only share a plan. */
public final class Plans {
  private final Workings workings;
  private final Map<Kind, Plan> made = new ConcurrentHashMap<>();

  public Plans(Loop loop) {
    this.workings = new Workings(loop);
  }

  /** What {@link Plan#of} gives for the target. */
  public Plan on(Target target) {
    Kind kind =
        new Kind(
            target.family(),
            target.clock(),
            target.eepromBytes() > 0,
            target.packages().stream().findFirst().map(Package::pins));
    Plan plan = made.computeIfAbsent(kind, any -> Planner.plan(workings, target));
    return plan instanceof Plan.Possible possible
        ? new Plan.Possible(possible.firmware().on(target))
        : plan;
  }

  /**
   * All that a plan depends on. The parts of a family share the family, the clocks and the pins of
   * packages as objects, so those are compared, and not all that they hold.
   */
  private record Kind(
      Family family, Clock clock, boolean eeprom, Optional<List<String>> pinsOfFirstPackage) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Kind kind
          && family == kind.family
          && clock == kind.clock
          && eeprom == kind.eeprom
          && pinsOfFirstPackage.orElse(null) == kind.pinsOfFirstPackage.orElse(null);
    }

    @Override
    public int hashCode() {
      int hash = System.identityHashCode(family) * 31 + System.identityHashCode(clock);
      hash = hash * 31 + System.identityHashCode(pinsOfFirstPackage.orElse(null));
      return eeprom ? ~hash : hash;
    }
  }
}
