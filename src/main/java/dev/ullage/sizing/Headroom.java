package dev.ullage.sizing;

import dev.ullage.loop.Bring;
import dev.ullage.loop.Margin;
import dev.ullage.target.Target;

/**
 * What is left of a target: capacity less footprint, less what the user brings, less margin. In
 * bytes; negative where it does not fit.
 */
public record Headroom(int flash, int ram) {

  /** The headroom of the likely figures. */
  public static Headroom of(Target target, Estimate estimate, Bring bring, Margin margin) {
    Need need = Need.of(target, estimate, bring, margin);
    return new Headroom(
        target.flashBytes() - need.flash() - need.flashMargin(),
        target.ramBytes() - need.ram() - need.ramMargin());
  }

  /** Bytes that a plan and its user need together, and what must stay free beside them. */
  record Need(int flash, int flashLow, int flashHigh, int flashMargin, int ram, int ramMargin) {
    private static final int PERCENT = 100;

    static Need of(Target target, Estimate estimate, Bring bring, Margin margin) {
      long share = (long) target.flashBytes() * margin.flashPercent();
      return new Need(
          estimate.flash().likely() + bring.flashBytes(),
          estimate.flash().low() + bring.flashBytes(),
          estimate.flash().high() + bring.flashBytes(),
          (int) ((share + PERCENT - 1) / PERCENT),
          estimate.staticRam() + estimate.stack() + bring.ramBytes() + bring.stackBytes(),
          margin.ramBytes());
    }
  }
}
