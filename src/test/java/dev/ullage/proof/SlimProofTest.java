package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.slim.SlimSet;
import dev.ullage.slim.Slimmer;
import dev.ullage.slim.Slimming;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Toolchain;
import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What `slim` promises, against the linker: the loop as it is links to more than the part has to
 * give, and the first sets of changes to programs that fit with its margin.
 */
class SlimProofTest {
  private final CostTables costs = CostTables.packed();

  @BeforeAll
  static void compilerIsThere() {
    Toolchain.avr();
  }

  @ParameterizedTest
  @CsvSource({
    "cold-store, attiny13a",
    "compost-heap, attiny13a",
    "bilge, attiny25",
    "grain-dryer, attiny13a",
    "grain-dryer, attiny48"
  })
  void slimmedLoops_linkToWhatFits(String sample, String part) {
    Loop loop = LoopReader.read(Path.of("generated-samples", sample, sample + ".yaml"));
    Target target = Catalogue.load().target(part).orElseThrow();
    Slimming slimming = new Slimmer(target, costs, Set.of()).slim(loop);

    assertEquals(Slimming.Outcome.SLIMMED, slimming.outcome());
    slimming.unchanged().plan().ifPresent(plan -> assertTrue(isShort(plan, link(plan)), sample));
    for (SlimSet set : slimming.sets().subList(0, Math.min(2, slimming.sets().size()))) {
      check(sample + " on " + part + " by " + set.steps().get(0).change().to(), set, target);
    }
  }

  /** From the loop file that the user would go on with. */
  private void check(String what, SlimSet set, Target target) {
    Loop written = LoopReader.read("slimmed.yaml", LoopPrinter.print(set.loop()));
    Firmware plan = ((Plan.Possible) Plan.of(written, target)).firmware();
    Comparison made = link(plan);
    assertAll(
        what,
        () -> assertFalse(isShort(plan, made), made::toString),
        () -> assertEquals(0, made.ramError(), made::toString),
        () -> assertEquals(0, made.stackError(), made::toString));
  }

  private Comparison link(Firmware plan) {
    return Comparison.of(plan, new Sizing(costs));
  }

  /** Whether less is left than the margin. */
  private static boolean isShort(Firmware plan, Comparison made) {
    Loop loop = plan.loop();
    Target target = plan.target();
    int flash = made.linked().flashBytes() + loop.bring().flashBytes();
    int ram = made.linked().staticRamBytes() + made.linked().stack().bytes();
    return flash + loop.margin().flashBytes(target.flashBytes()) > target.flashBytes()
        || ram + loop.bring().ramBytes() + loop.margin().ramBytes() > target.ramBytes();
  }
}
