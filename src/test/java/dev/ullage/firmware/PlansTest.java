package dev.ullage.firmware;

import static org.junit.jupiter.api.Assertions.assertEquals;

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

  private static void assertShared(Loop loop) {
    Plans plans = new Plans(loop);
    for (Target target : Catalogue.load().targets()) {
      assertEquals(Plan.of(loop, target), plans.on(target), target.name());
    }
  }
}
