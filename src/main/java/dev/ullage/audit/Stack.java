package dev.ullage.audit;

import dev.ullage.measure.StackPath.Step;
import java.util.List;

/**
 * How deep the stack can be: the deepest path from {@code main}, with the deepest interrupt on top.
 *
 * @param bytes the bound, or what is certain where there is none
 * @param path from {@code main} to the deepest call, then the interrupt; empty where there is none
 * @param why one sentence without a full stop that says what is not known, and where; empty for a
 *     bound
 */
public record Stack(Kind kind, int bytes, List<Step> path, String why) {

  public Stack {
    path = List.copyOf(path);
  }

  /** How much is known. */
  public enum Kind {
    /** It is never deeper. */
    BOUND,
    /** It is at least as deep; something on the way was not measured. */
    AT_LEAST,
    /** Recursion, a call through a pointer or a frame of changing size: there is no bound. */
    UNBOUNDED,
    /** The files say nothing of it. */
    UNKNOWN
  }

  static Stack bound(int bytes, List<Step> path) {
    return new Stack(Kind.BOUND, bytes, path, "");
  }

  static Stack unbounded(String why) {
    return new Stack(Kind.UNBOUNDED, 0, List.of(), why);
  }

  static Stack unknown(String why) {
    return new Stack(Kind.UNKNOWN, 0, List.of(), why);
  }

  /** Whether {@link #bytes} is a bound. */
  public boolean isBound() {
    return kind == Kind.BOUND;
  }
}
