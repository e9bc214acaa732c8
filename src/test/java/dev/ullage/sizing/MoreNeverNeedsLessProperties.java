package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** A loop that asks for more never needs less, with the tables that come with the tool. */
class MoreNeverNeedsLessProperties {
  private final Sizing sizing = new Sizing(CostTables.packed());
  private final Catalogue catalogue = Catalogue.load();

  @Property(tries = 150)
  void moreSamplesNeverNeedLess(
      @ForAll @IntRange(min = 1, max = 63) int samples, @ForAll @IntRange(max = 129) int part) {
    Target target = catalogue.targets().get(part);

    compare(
        estimate(target, frame(samples), "moving, readings: 8"),
        estimate(target, frame(samples + 1), "moving, readings: 8"));
  }

  @Property(tries = 150)
  void aLongerWindowNeverNeedsLess(
      @ForAll @IntRange(min = 2, max = 254) int readings, @ForAll @IntRange(max = 129) int part) {
    Target target = catalogue.targets().get(part);

    compare(
        estimate(target, frame(4), "moving, readings: " + readings),
        estimate(target, frame(4), "moving, readings: " + (readings + 1)));
  }

  private static void compare(Optional<Estimate> less, Optional<Estimate> more) {
    if (less.isPresent() && more.isPresent()) {
      assertTrue(more.get().flash().likely() >= less.get().flash().likely());
      assertTrue(more.get().staticRam() >= less.get().staticRam());
      assertTrue(more.get().stack() >= less.get().stack());
    }
  }

  private static String frame(int samples) {
    return "{samples: " + samples + ", sample_bytes: 1, signed: false}";
  }

  private Optional<Estimate> estimate(Target target, String frame, String overTime) {
    Loop loop =
        LoopReader.read(
            "test.yaml",
            "loop: test\nperiod_ms: 60000\nsensor: {address: 0x48, frame: "
                + frame
                + "}\n"
                + "average: {over_time: "
                + overTime
                + "}\nalarm: {threshold: 100}\n");
    if (Plan.of(loop, target) instanceof Plan.Possible possible) {
      Firmware firmware = possible.firmware();
      return Optional.of(sizing.estimate(target, firmware.modules(), firmware.buffers()));
    }
    return Optional.empty();
  }
}
