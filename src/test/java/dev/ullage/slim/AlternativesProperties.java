package dev.ullage.slim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Loops;
import dev.ullage.loop.Sensor;
import java.util.Optional;
import java.util.Set;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class AlternativesProperties {

  @Provide
  Arbitrary<Loop> loops() {
    return Loops.valid();
  }

  @Property(tries = 120)
  void aChangeMakesAnotherRightLoopOfTheSameJob(@ForAll("loops") Loop loop) {
    for (Change change : Alternatives.of(loop, Cases.target("atmega48pa"), Set.of())) {
      Optional<Loop> changed = change.apply(loop);
      changed.ifPresent(other -> check(loop, change, other));
    }
  }

  private static void check(Loop loop, Change change, Loop other) {
    assertNotEquals(loop, other, change::toString);
    assertEquals(other, LoopReader.read("changed.yaml", LoopPrinter.print(other)));
    assertNotEquals(change.from(), change.to());
    assertTrue(change.weight() > 0, change::toString);
    assertEquals(job(loop, change.aspect()), job(other, change.aspect()), change::toString);
    assertFalse(loop.outputs().relay().isPresent() && other.outputs().relay().isEmpty());
  }

  /** What no change may touch. */
  private static String job(Loop loop, Aspect aspect) {
    Sensor s = loop.sensor();
    return String.join(
        "|",
        loop.name(),
        "" + loop.periodMs(),
        s.bus() + " " + s.address() + s.speedHz() + s.ask() + s.restart() + s.waitMs() + s.scale(),
        aspect == Aspect.CHECK ? "" : s.frame().toString(),
        loop.average().frame() + " " + loop.average().level(),
        aspect == Aspect.KNOB ? "" : loop.alarm().limit().toString(),
        loop.alarm().onSensorFault() + " " + loop.alarm().faultsAllowed(),
        loop.bring() + " " + loop.margin() + loop.board().supplyV());
  }
}
