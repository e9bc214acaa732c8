package dev.ullage.slim;

import dev.ullage.loop.Loop;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Optional;

/**
 * What can be done to make a loop fit a target.
 *
 * @param sets the cheapest first; each leaves alone something that all before it change
 * @param unchanged the loop as it is
 * @param nearest where nothing helps: of all that can be made of the loop, what misses least; empty
 *     where even that cannot be planned
 * @param trials loops that were planned and estimated
 * @param cheapest false where the search was given up, and the first set may not be the cheapest
 */
public record Slimming(
    Loop loop,
    Target target,
    Outcome outcome,
    List<SlimSet> sets,
    Trial unchanged,
    Optional<Trial> nearest,
    int trials,
    boolean cheapest) {

  public Slimming {
    sets = List.copyOf(sets);
  }

  /** The four answers, and one for a target of which too little is known. */
  public enum Outcome {
    /** There is nothing to do. */
    FITS,
    /** The sets make it fit. */
    SLIMMED,
    /** The sets make it fit, but what they leave is less than the margin. */
    WITHOUT_MARGIN,
    /** No set of changes is enough. */
    NOTHING,
    /** Only the limits of the target are known. */
    NOT_MEASURED
  }

  /** True where there is a loop that fits. */
  public boolean isSolved() {
    return outcome == Outcome.FITS || !sets.isEmpty();
  }
}
