package dev.ullage.measure;

import java.util.List;
import java.util.Optional;

/**
 * The deepest stack that can come about below one function.
 *
 * @param bytes how deep, return address of that function included; what is known of it where there
 *     is no bound
 * @param steps from that function to the deepest; they add up to {@code bytes}; empty where there
 *     is no bound
 * @param unbounded why there is no bound, and where, if there is none
 */
public record StackPath(int bytes, List<Step> steps, Optional<String> unbounded) {

  public StackPath {
    steps = List.copyOf(steps);
  }

  /** A function on the path, with its return address and what it holds when it goes on. */
  public record Step(String function, int bytes) {}
}
