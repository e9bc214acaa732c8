package dev.ullage.measure;

import dev.ullage.measure.Symbol.Edge;
import java.util.List;
import java.util.Optional;

/**
 * What a routine does to the stack.
 *
 * @param ownStack bytes at its deepest
 * @param edges to other routines
 * @param unbounded why there is no bound, if there is none
 * @param enablesInterrupts whether it lets interrupts in
 * @param returns whether it has an end: it returns, or jumps where nobody knows
 * @param servesInterrupt whether it returns as only handlers of interrupts do
 */
record Routine(
    int ownStack,
    List<Edge> edges,
    Optional<String> unbounded,
    boolean enablesInterrupts,
    boolean returns,
    boolean servesInterrupt) {

  Routine {
    edges = List.copyOf(edges);
  }

  /** For what is not code. */
  static final Routine NONE = new Routine(0, List.of(), Optional.empty(), false, true, false);
}
