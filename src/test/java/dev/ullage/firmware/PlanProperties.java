package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.loop.Loops;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.LongRange;

/** What holds for every plan. */
class PlanProperties {
  private static final List<Target> TARGETS = Catalogue.load().targets();

  @Provide
  Arbitrary<Loop> loops() {
    return Loops.valid();
  }

  @Property(tries = 400)
  void everyLoopOnEveryTargetIsPlannedOrRefusedWithAReason(
      @ForAll("loops") Loop loop, @ForAll @IntRange(max = 10_000) int choice) {
    Target target = TARGETS.get(choice % TARGETS.size());

    if (Plan.of(loop, target) instanceof Plan.Possible possible) {
      holdsTogether(possible.firmware());
    } else {
      Plan.Impossible impossible = (Plan.Impossible) Plan.of(loop, target);
      assertTrue(impossible.lack().reason().length() > 10);
    }
  }

  private static void holdsTogether(Firmware firmware) {
    Set<String> pins = new HashSet<>();
    firmware.pins().values().forEach(pin -> assertTrue(pins.add(pin.name()), pin.name()));
    Set<String> names = new HashSet<>();
    firmware.constants().forEach(each -> assertTrue(names.add(each.name()), each.name()));
    int periodMs = firmware.loop().periodMs();
    double counted = firmware.pace().ticks(periodMs) * firmware.pace().exactTickMs();
    assertEquals(periodMs, counted, 0.01 * periodMs);
  }

  // Arithmetic on the 0..0x3FF range of a 10-bit converter: both ends must be reached (F-077, from
  // memory).
  @Property(tries = 500)
  void knobReachesBothEndsExactly(@ForAll @LongRange(min = 1, max = 1_000_000_000) long span) {
    long multiplier = Knob.multiplier(span);

    assertEquals(0, Knob.scaled(0, multiplier));
    assertEquals(span, Knob.scaled(Knob.TOP, multiplier));
  }

  @Property(tries = 300)
  void knobNeverFallsAsItIsTurnedUp(
      @ForAll @LongRange(min = 1, max = 1_000_000) long span,
      @ForAll @IntRange(max = Knob.TOP - 1) int code) {
    long multiplier = Knob.multiplier(span);

    assertTrue(Knob.scaled(code, multiplier) <= Knob.scaled(code + 1, multiplier));
  }
}
