package dev.ullage.slim;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Loop;
import java.util.Optional;
import java.util.function.Function;

/**
 * One thing that can be had in another way.
 *
 * <p>Its weight is what it takes from the user, and all that the search compares: 1 for what nobody
 * notices, 2 and 3 for a comfort, 4 to 6 for something that gets slower or has to be done by hand,
 * 7 to 10 for something that people rely on, 15 for a safeguard of the readings themselves. Weights
 * of a set add up.
 *
 * @param key where the loop file says it
 * @param from, to what it says there, before and after, for people
 */
public record Change(
    Aspect aspect,
    String key,
    String from,
    String to,
    int weight,
    Function<Firmware, String> loss,
    Edit edit) {

  /** A change whose loss is the same on every part. */
  static Change of(
      Aspect aspect, String key, String from, String to, int weight, String loss, Edit edit) {
    return new Change(aspect, key, from, to, weight, any -> loss, edit);
  }

  /** The loop with this change; empty where it has nothing to change so. */
  public Optional<Loop> apply(Loop loop) {
    return edit.apply(loop);
  }

  /**
   * What the user loses, in a sentence without a full stop.
   *
   * @param slimmed the plan of the loop with this change and all others of its set
   */
  public String lossOn(Firmware slimmed) {
    return loss.apply(slimmed);
  }
}
