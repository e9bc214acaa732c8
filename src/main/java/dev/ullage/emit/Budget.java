package dev.ullage.emit;

import java.util.List;

/**
 * The estimate as the README prints it.
 *
 * @param grade how the figures are known: {@code measured}, {@code modelled} or {@code listed}
 * @param figures the totals
 * @param parts what each module, start-up and the run-time helpers add
 * @param stackPath from {@code main} to the deepest call, then the interrupt on top
 */
public record Budget(String grade, Origin.Figures figures, List<Part> parts, List<Step> stackPath) {

  public Budget {
    parts = List.copyOf(parts);
    stackPath = List.copyOf(stackPath);
  }

  /** Bytes of flash and of static RAM. */
  public record Part(String name, int flash, int ram) {}

  /** A function on the deepest path, with the bytes that it and its return address take. */
  public record Step(String function, int bytes) {}
}
