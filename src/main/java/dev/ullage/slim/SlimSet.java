package dev.ullage.slim;

import dev.ullage.loop.Loop;
import java.util.List;
import java.util.Optional;

/**
 * Changes that together make a loop fit; with any of them left out it does not.
 *
 * @param together what all of them save; empty where the loop as it is has no plan
 * @param result the loop with all of them
 */
public record SlimSet(List<Step> steps, Optional<Saving> together, Trial result) {

  public SlimSet {
    steps = List.copyOf(steps);
  }

  /**
   * One of the changes.
   *
   * @param loss what the user loses, a sentence without a full stop
   * @param alone what it saves without the others; empty where it cannot be told
   */
  public record Step(Change change, String loss, Optional<Saving> alone) {}

  /** The slimmed loop. */
  public Loop loop() {
    return result.loop();
  }

  /** What the changes take from the user, together: see {@link Change}. */
  public int weight() {
    return steps.stream().mapToInt(step -> step.change().weight()).sum();
  }
}
