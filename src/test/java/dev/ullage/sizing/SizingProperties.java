package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import dev.ullage.loop.Bring;
import dev.ullage.loop.Margin;
import dev.ullage.sizing.Verdict.Kind;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Laws that hold whatever was measured. */
class SizingProperties {
  private static final Target TINY85 = Tables.target("attiny85");
  private final Sizing sizing = new Sizing(Tables.small().tables());

  @Property(tries = 300)
  void partsAddUpToTheTotal(
      @ForAll @IntRange(max = 9) int ask,
      @ForAll @IntRange(max = 200) int window,
      @ForAll boolean moving) {
    Estimate estimate = estimate(ask, window, 8, moving);
    assertEquals(
        estimate.flash().likely(),
        estimate.modules().stream().mapToInt(Estimate.Part::flash).sum());
    assertEquals(
        estimate.staticRam(), estimate.modules().stream().mapToInt(Estimate.Part::ram).sum());
    assertEquals(
        estimate.stack(), estimate.stackPath().stream().mapToInt(Estimate.Step::bytes).sum());
    assertTrue(estimate.flash().low() <= estimate.flash().likely());
    assertTrue(estimate.flash().likely() <= estimate.flash().high());
  }

  @Property(tries = 300)
  void moreBufferBytes_needExactlyThatMuchMore(
      @ForAll @IntRange(max = 200) int window, @ForAll @IntRange(max = 60) int more) {
    Estimate less = estimate(2, window, 8, true);
    Estimate greater = estimate(2, window + more, 8, true);
    assertEquals(less.staticRam() + more, greater.staticRam());
    assertEquals(less.flash(), greater.flash());
  }

  @Property(tries = 100)
  void higherCount_neverNeedsLess(@ForAll @IntRange(max = 9) int ask) {
    assertTrue(
        estimate(ask, 16, 8, true).flash().likely()
            < estimate(ask + 1, 16, 8, true).flash().likely());
  }

  @Property(tries = 100)
  void anotherModule_neverLowersAnything(@ForAll @IntRange(max = 500) int bytes) {
    Sizing more =
        new Sizing(
            Tables.small()
                .port("serial[]", "C __vector_3 " + bytes + " 9 __mulhi3@9 kept", "Z kept 3 0")
                .tables());
    Estimate without = more.estimate(TINY85, plan(2, true), buffers(16, 8, true));
    List<Module> plan = new ArrayList<>(plan(2, true));
    plan.add(Tables.port("serial[]"));
    Estimate with = more.estimate(TINY85, plan, buffers(16, 8, true));
    assertEquals(without.flash().likely() + bytes, with.flash().likely());
    assertEquals(without.staticRam() + 3, with.staticRam());
    assertTrue(with.stack() >= without.stack());
  }

  @Property(tries = 300)
  void largerPart_neverTurnsFitsIntoOver(
      @ForAll @IntRange(max = 600) int window,
      @ForAll @IntRange(max = 4000) int bring,
      @ForAll @IntRange(max = 9) int percent,
      @ForAll @IntRange(max = 9000) int flash,
      @ForAll @IntRange(max = 600) int ram,
      @ForAll @IntRange(max = 900) int larger) {
    Kind small = kind(flash, ram, window, bring, percent);
    Kind large = kind(flash + larger, ram + larger, window, bring, percent);
    assertTrue(large.compareTo(small) <= 0, small + " became " + large);
  }

  private Kind kind(int flash, int ram, int window, int bring, int percent) {
    Target target = TINY85;
    Target sized =
        new Target(
            target.name(),
            target.title(),
            target.family(),
            target.toolchain(),
            target.stackPointerBits(),
            target.flashStart(),
            flash,
            target.flashBeside(),
            ram,
            target.ramStart(),
            target.eepromBytes(),
            target.vectors(),
            target.vectorBytes(),
            target.clock(),
            target.packages(),
            target.sources());
    Estimate estimate = sizing.estimate(sized, plan(2, true), buffers(window, 8, true));
    return Sizing.verdict(
            sized, estimate, new Bring(bring, 1, 2), new Margin(percent, 16), "buffered")
        .kind();
  }

  private Estimate estimate(int ask, int window, int send, boolean moving) {
    return sizing.estimate(TINY85, plan(ask, moving), buffers(window, send, moving));
  }

  private static List<Module> plan(int ask, boolean moving) {
    return List.of(
        Tables.portable("main[]"),
        Tables.module("ask[ask=yes]", Module.Scope.PORTABLE, Map.of("ask", ask)),
        Tables.portable("average[kind=" + (moving ? "moving" : "block") + ",sum=s16]"),
        Tables.port("bus_buffered[]"));
  }

  private static List<Buffer> buffers(int window, int send, boolean moving) {
    Buffer sent = new Buffer("bus send", "bus_buffered", "bus_sent", send);
    return moving
        ? List.of(new Buffer("averaging window", "average", "average_window", window), sent)
        : List.of(sent);
  }
}
