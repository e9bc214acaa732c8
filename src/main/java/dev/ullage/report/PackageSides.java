package dev.ullage.report;

import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.PinUse;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.regex.Pattern;

/**
 * Where the pins of a package lie, seen from above: each side from left to right or downwards. Pins
 * are counted against the clock.
 *
 * @param top empty, as {@code bottom} is, where the pins are in two rows
 */
record PackageSides(List<PinUse> left, List<PinUse> bottom, List<PinUse> right, List<PinUse> top) {
  private static final Pattern FOUR_SIDES = Pattern.compile("\\w*(QFN|QFP|MLF|PLCC)-\\d+");
  private static final int SIDES = 4;

  PackageSides {
    left = List.copyOf(left);
    bottom = List.copyOf(bottom);
    right = List.copyOf(right);
    top = List.copyOf(top);
  }

  static PackageSides of(PinMap map) {
    List<PinUse> pins = new ArrayList<>(map.leads());
    boolean square =
        pins.size() % SIDES == 0 && FOUR_SIDES.matcher(map.pack()).matches() && !pins.isEmpty();
    if (!square) {
      int half = (pins.size() + 1) / 2;
      return new PackageSides(
          pins.subList(0, half), List.of(), reversed(pins.subList(half, pins.size())), List.of());
    }
    int side = pins.size() / SIDES;
    if (map.pack().startsWith("PLCC")) {
      // Pin 1 of a chip carrier is in the middle of the upper side: JEDEC MS-018.
      Collections.rotate(pins, -(side + 1) / 2);
    }
    return new PackageSides(
        pins.subList(0, side),
        pins.subList(side, 2 * side),
        reversed(pins.subList(2 * side, 3 * side)),
        reversed(pins.subList(3 * side, pins.size())));
  }

  private static List<PinUse> reversed(List<PinUse> pins) {
    List<PinUse> reversed = new ArrayList<>(pins);
    Collections.reverse(reversed);
    return reversed;
  }

  boolean inTwoRows() {
    return top.isEmpty();
  }
}
