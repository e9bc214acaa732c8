package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Sizing;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Toolchain;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;

/**
 * A 16-sample frame, a knob, hysteresis, a blinking lamp and a sounder with its tone, on a part of
 * 1 KiB of flash and 64 bytes of RAM.
 */
class SmallestPartTest {
  private static final int MOST_FLASH = 700;
  private static final int MOST_RAM = 40;

  private final Loop loop = LoopReader.read(Path.of("generated-samples/bee-hive/bee-hive.yaml"));
  private final Target target = Catalogue.load().target("attiny13a").orElseThrow();
  private final Firmware firmware = ((Plan.Possible) Plan.of(loop, target)).firmware();
  private final Sizing sizing = new Sizing(CostTables.packed());

  @Test
  void fitsByTheEstimate_andEveryByteHasItsModule() {
    Estimate estimate = sizing.estimate(target, firmware.modules(), firmware.buffers());
    Verdict verdict =
        Sizing.verdict(target, estimate, loop.bring(), loop.margin(), "bit-banged bus driver");

    System.out.println("bee-hive on attiny13a, bytes of flash and static RAM by module:");
    estimate
        .modules()
        .forEach(
            part -> System.out.printf("  %4d %3d  %s%n", part.flash(), part.ram(), part.name()));
    System.out.printf(
        "  %4d %3d  in all; stack %d%n",
        estimate.flash().likely(), estimate.staticRam(), estimate.stack());
    assertEquals(Verdict.Kind.FITS, verdict.kind(), verdict.reason());
    assertTrue(estimate.flash().high() <= MOST_FLASH, estimate.flash()::toString);
    assertTrue(
        estimate.staticRam() + estimate.stack() <= MOST_RAM,
        () -> estimate.staticRam() + " static, " + estimate.stack() + " stack");
  }

  @Test
  void buildsAndLinksInThoseBytes() {
    Toolchain.avr();

    Comparison comparison = Comparison.of(firmware, sizing);

    assertTrue(comparison.linked().flashBytes() <= MOST_FLASH, comparison::toString);
    assertEquals(0, comparison.ramError(), comparison::toString);
    assertEquals(0, comparison.stackError(), comparison::toString);
  }
}
