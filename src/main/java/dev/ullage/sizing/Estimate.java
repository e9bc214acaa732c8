package dev.ullage.sizing;

import dev.ullage.firmware.Buffer;
import java.util.List;

/**
 * What a plan needs, in bytes.
 *
 * @param grade how the figures are known
 * @param flash program memory, load image of initialised data included
 * @param staticRam every static object; exact
 * @param stack bound on the deepest stack, interrupts on top included
 * @param modules the parts of flash and static RAM; they add up to {@code flash.likely} and {@code
 *     staticRam}
 * @param buffers the parts of static RAM that the plan decides
 * @param stackPath from {@code main} to the deepest call, then the interrupt on top
 */
public record Estimate(
    Grade grade,
    Interval flash,
    int staticRam,
    int stack,
    List<Part> modules,
    List<Buffer> buffers,
    List<Step> stackPath) {

  public Estimate {
    modules = List.copyOf(modules);
    buffers = List.copyOf(buffers);
    stackPath = List.copyOf(stackPath);
  }

  /** How a figure is known. */
  public enum Grade {
    /** From this core's own table. */
    MEASURED,
    /** Scaled from a sibling core. */
    MODELLED,
    /** Only the limits of the part are known. */
    LISTED
  }

  /** A figure that may be a few bytes off. */
  public record Interval(int low, int likely, int high) {}

  /** What one module (or start-up, or the run-time helpers) adds. */
  public record Part(String name, int flash, int ram) {}

  /** One function on the deepest path, with the bytes it and its return address take. */
  public record Step(String function, int bytes) {}
}
