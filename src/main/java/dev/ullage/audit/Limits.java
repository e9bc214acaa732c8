package dev.ullage.audit;

import dev.ullage.loop.Margin;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What a build may take, in bytes.
 *
 * @param margin what must stay free of the part
 * @param maxFlash of flash
 * @param maxRam of static RAM and, where it has a bound, the stack
 * @param maxGrowth of flash, and of RAM, since the baseline
 */
public record Limits(
    Margin margin, OptionalInt maxFlash, OptionalInt maxRam, OptionalInt maxGrowth) {
  /** What a loop file says where it says nothing. */
  public static final Margin USUAL_MARGIN = new Margin(5, 16);

  /** What is above a limit, a sentence without a full stop for each. */
  List<String> exceeded(Measured measured, Optional<Growth> growth) {
    List<String> exceeded = new ArrayList<>();
    Figures figures = measured.figures();
    hold(exceeded, "flash", figures.flash(), maxFlash, "--max-flash");
    Stack stack = measured.stack();
    int ram = figures.staticRam() + (stack.isBound() ? stack.bytes() : 0);
    hold(exceeded, stack.isBound() ? "RAM with stack" : "static RAM", ram, maxRam, "--max-ram");
    growth.ifPresent(
        more -> {
          hold(exceeded, "growth of flash", more.flash(), maxGrowth, "--max-growth");
          hold(exceeded, "growth of RAM", more.ram(), maxGrowth, "--max-growth");
        });
    return exceeded;
  }

  private static void hold(
      List<String> exceeded, String what, int bytes, OptionalInt limit, String option) {
    if (limit.isPresent() && bytes > limit.getAsInt()) {
      exceeded.add(
          "%s is %d B, %d B above %s".formatted(what, bytes, bytes - limit.getAsInt(), option));
    }
  }
}
