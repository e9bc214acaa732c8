package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Loops;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PlansTest {

  @ParameterizedTest
  @ValueSource(strings = {"bee-hive", "bilge", "cold-store", "compost-heap", "grain-dryer"})
  void sharedPlan_isThePlanOfEachTarget(String sample) {
    assertShared(LoopReader.read(Path.of("generated-samples", sample, sample + ".yaml")));
  }

  /** All drivers, outputs, knobs, tones and reports, on all packages. */
  @Test
  void sharedPlan_isThePlanOfEachTarget_whateverTheLoop() {
    Loops.random(13, 60).forEach(PlansTest::assertShared);
  }

  /** The tone of the CH32V003J4M6 has PC1 alone, which its controller has for data. */
  @Test
  void auto_movesOtherPins_whereThoseOfTheControllerAreTaken() {
    String sounder = "alarm: {threshold: 1}\noutputs: {sounder: {tone_hz: 2000}}\n";
    assertMoved("ch32v003j4m6", sounder, "PC1 is wanted for sounder and for sda");
    String pins =
        "alarm: {threshold: 1}\noutputs: {lamp: {}}\nboard: {pins: {sda: PD2, scl: PD3}}\n";
    assertMoved("atmega328p", pins, "the loop file has sda on PD2");
    String polled = pins + "bus_driver: polled\n";
    Target part = Catalogue.load().target("atmega328p").orElseThrow();
    assertInstanceOf(Plan.Impossible.class, Plan.of(LoopText.loop("", polled), part));
  }

  private static void assertMoved(String part, String sections, String why) {
    Target target = Catalogue.load().target(part).orElseThrow();
    Plan plan = Plan.of(LoopText.loop("", sections), target);
    BusPlan bus = assertInstanceOf(Plan.Possible.class, plan).firmware().bus();
    assertEquals(BusDriver.BITBANG, bus.driver());
    assertTrue(bus.why().startsWith(why), bus.why());
  }

  private static void assertShared(Loop loop) {
    Plans plans = new Plans(loop);
    for (Target target : Catalogue.load().targets()) {
      assertEquals(Plan.of(loop, target), plans.on(target), target.name());
    }
  }
}
