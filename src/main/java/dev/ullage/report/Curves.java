package dev.ullage.report;

import dev.ullage.loop.Bring;
import dev.ullage.loop.Loop;
import dev.ullage.sizing.CostTables;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What each value of a {@link WhatIf} comes to on each target: every point is a plan of its own and
 * an estimate of its own.
 *
 * @param points by name of the target, in the order of the values; a value without a loop, and a
 *     target without a plan for it, has no point
 */
record Curves(WhatIf whatIf, Map<String, List<Optional<Point>>> points) {

  /** Bytes that are needed at most, with what the user brings. */
  record Point(int flash, int ram) {
    static Optional<Point> of(Assessment row, Bring bring) {
      return row.estimate()
          .map(
              e ->
                  new Point(
                      e.flash().high() + bring.flashBytes(),
                      e.staticRam() + e.stack() + bring.ramBytes() + bring.stackBytes()));
    }
  }

  static Curves of(WhatIf whatIf, List<Target> targets, CostTables costs) {
    Map<String, List<Optional<Point>>> points = new HashMap<>();
    targets.forEach(target -> points.put(target.name(), new ArrayList<>()));
    for (WhatIf.Variant variant : whatIf.variants()) {
      if (variant.loop().isPresent()) {
        Loop loop = variant.loop().get();
        Survey.of(loop, targets, costs)
            .rows()
            .forEach(row -> points.get(row.target().name()).add(Point.of(row, loop.bring())));
      } else {
        points.values().forEach(each -> each.add(Optional.empty()));
      }
    }
    return new Curves(whatIf, points);
  }
}
