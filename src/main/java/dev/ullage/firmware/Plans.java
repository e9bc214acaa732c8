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

/**
 * Plans one loop on many targets. Targets that differ in their memories only share a plan, and so
 * do packages that lead out all the pins that it takes.
 */
public final class Plans {
  private final Workings workings;
  private final Map<Kind, Plan> onAllPins = new ConcurrentHashMap<>();
  private final Map<Kind, Plan> inPackages = new ConcurrentHashMap<>();

  public Plans(Loop loop) {
    this.workings = new Workings(loop);
  }

  /** What {@link Plan#of} gives for the target. */
  public Plan on(Target target) {
    // Pins are handed out in one order, each the first that will do or the last: to take away
    // others than those that were handed out changes nothing.
    Plan wide =
        onAllPins.computeIfAbsent(
            Kind.of(target, Optional.empty()),
            any -> Planner.plan(workings, target, List.copyOf(target.family().pins().values())));
    Plan plan =
        leadsOut(target, wide)
            ? wide
            : inPackages.computeIfAbsent(
                Kind.of(target, target.firstPackage().map(Package::pins)),
                any -> Planner.plan(workings, target, target.pins()));
    return plan instanceof Plan.Possible possible
        ? new Plan.Possible(possible.firmware().on(target))
        : plan;
  }

  private static boolean leadsOut(Target target, Plan plan) {
    return plan instanceof Plan.Possible possible
        && possible.firmware().pins().values().stream().allMatch(target::leadsOut);
  }

  /**
   * All that a plan depends on. The parts of a family share the family, the clocks and the pins of
   * packages as objects, so those are compared, and not all that they hold.
   */
  private record Kind(Family family, Clock clock, boolean eeprom, Optional<List<String>> pins) {
    static Kind of(Target target, Optional<List<String>> pins) {
      return new Kind(target.family(), target.clock(), target.eepromBytes() > 0, pins);
    }

    @Override
    public boolean equals(Object other) {
      return other instanceof Kind kind
          && family == kind.family
          && clock == kind.clock
          && eeprom == kind.eeprom
          && pins.orElse(null) == kind.pins.orElse(null);
    }

    @Override
    public int hashCode() {
      int hash = System.identityHashCode(family) * 31 + System.identityHashCode(clock);
      hash = hash * 31 + System.identityHashCode(pins.orElse(null));
      return eeprom ? ~hash : hash;
    }
  }
}
