package dev.ullage.slim;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Lack;
import dev.ullage.loop.Loop;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import java.util.Optional;

/**
 * What one loop comes to on the target.
 *
 * @param lack what the target does not have; then there is no plan
 * @param needed empty where there is no plan, or nothing was measured that comes near
 */
public record Trial(
    Loop loop, Optional<Lack> lack, Optional<Firmware> plan, Optional<Needed> needed) {

  /**
   * What it takes, in bytes, and what it leaves.
   *
   * @param flash upper end of the estimate
   * @param left what stays free beside what the user brings and the margin
   */
  public record Needed(int flash, int staticRam, int stack, Headroom left) {
    static Needed of(Estimate estimate, Headroom left) {
      return new Needed(estimate.flash().high(), estimate.staticRam(), estimate.stack(), left);
    }

    int ram() {
      return staticRam + stack;
    }
  }

  /** True where it fits for certain, with the margin that counts. */
  public boolean fits() {
    return needed.isPresent() && shortFlash() == 0 && shortRam() == 0;
  }

  /** Bytes of flash that are missing. */
  public int shortFlash() {
    return needed.map(n -> Math.max(0, -n.left().flash())).orElse(0);
  }

  /** Bytes of RAM that are missing. */
  public int shortRam() {
    return needed.map(n -> Math.max(0, -n.left().ram())).orElse(0);
  }
}
