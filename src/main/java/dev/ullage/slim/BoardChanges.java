package dev.ullage.slim;

import dev.ullage.firmware.Clocking;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board;
import dev.ullage.loop.Loop;
import dev.ullage.target.Clock;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.SortedSet;
import java.util.TreeSet;

/** Other clocks that the part can make by itself, and pins left to the tool. */
final class BoardChanges {
  private static final int OTHER_CLOCK = 4;
  private static final int OTHER_PINS = 6;
  private static final int SLOWEST_HZ = 1_000_000;

  private BoardChanges() {}

  static List<Change> of(Loop loop, Target target) {
    List<Change> changes = new ArrayList<>();
    long now = loop.board().clockHz().orElse(target.clock().factoryHz());
    for (long hz : clocks(target.clock())) {
      if (hz != now) {
        changes.add(clock(loop, now, hz, target.clock().factoryHz()));
      }
    }
    if (!loop.board().pins().isEmpty()) {
      changes.add(pins(loop.board()));
    }
    return changes;
  }

  /** What the part runs at without anything from outside, slowest first. */
  private static SortedSet<Long> clocks(Clock clock) {
    SortedSet<Long> clocks = new TreeSet<>(clock.internalHz());
    clocks.add(clock.factoryHz());
    clocks.addAll(clock.settings().keySet());
    clocks.removeIf(hz -> hz < SLOWEST_HZ);
    return clocks;
  }

  private static Change clock(Loop loop, long now, long hz, long factoryHz) {
    OptionalLong written = hz == factoryHz ? OptionalLong.empty() : OptionalLong.of(hz);
    return new Change(
        Aspect.CLOCK,
        "board.clock_hz",
        loop.board().clockHz().isPresent() ? String.valueOf(now) : "as delivered",
        written.isPresent() ? String.valueOf(hz) : "as delivered",
        OTHER_CLOCK,
        slimmed -> runsAt(slimmed, now),
        l -> Optional.of(l.with(l.board().with(written, l.board().pins()))));
  }

  private static String runsAt(Firmware slimmed, long before) {
    String how =
        switch (slimmed.clock().source()) {
          case FACTORY -> "as it is delivered";
          case PROGRAM, CRYSTAL -> "which the program sets";
          case FUSES -> "which fuses must choose";
          case OUTSIDE -> "from outside";
        };
    return "the part runs at "
        + Clocking.megahertz(slimmed.clock().hz())
        + ", "
        + how
        + ", instead of "
        + Clocking.megahertz(before);
  }

  private static Change pins(Board now) {
    return Change.of(
        Aspect.PINS,
        "board.pins",
        now.pins().size() == 1 ? "1 named" : now.pins().size() + " named",
        "chosen",
        OTHER_PINS,
        "the pins are chosen for this part: the board has to be wired so",
        l -> Optional.of(l.with(l.board().with(l.board().clockHz(), Map.of()))));
  }
}
