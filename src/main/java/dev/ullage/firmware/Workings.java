package dev.ullage.firmware;

import dev.ullage.loop.Loop;
import dev.ullage.target.Core;
import dev.ullage.target.Family;
import dev.ullage.target.Target;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/** What plans of one loop have in common, worked out once: its arithmetic, and bus timings. */
final class Workings {
  private final Loop loop;
  private final Map<Place, BusPlan> buses = new ConcurrentHashMap<>();
  private volatile Arithmetic arithmetic;

  Workings(Loop loop) {
    this.loop = loop;
  }

  Loop loop() {
    return loop;
  }

  /**
   * The numbers of the loop.
   *
   * @throws Whole.TooWide where they do not fit
   */
  Arithmetic arithmetic() {
    Arithmetic known = arithmetic;
    if (known == null) {
      known = Arithmetic.of(loop);
      arithmetic = known;
    }
    return known;
  }

  /**
   * How the bus is driven on a target at that clock.
   *
   * @throws Lacking where it cannot be
   */
  BusPlan bus(Target target, long clockHz) {
    Place place = new Place(target.family(), target.toolchain(), clockHz);
    BusPlan known = buses.get(place);
    if (known == null) {
      known = BusPlan.of(loop, target, clockHz);
      buses.put(place, known);
    }
    return known;
  }

  /** All of a target that its bus depends on; parts share family and core as objects. */
  private record Place(Family family, Core core, long clockHz) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Place place
          && family == place.family
          && core == place.core
          && clockHz == place.clockHz;
    }

    @Override
    public int hashCode() {
      return 31 * System.identityHashCode(family) + Long.hashCode(clockHz);
    }
  }
}
