package dev.ullage.sizing;

import dev.ullage.loop.Bring;
import dev.ullage.loop.Margin;
import dev.ullage.target.Target;

/**
 * What is left of a target: capacity less footprint, less what the user brings, less margin. In
 * bytes; negative where it does not fit.
 */
public record Headroom(int flash, int ram) {

  /** What is left for certain: of the flash, with the upper end of its interval. */
  public static Headroom of(Target target, Estimate estimate, Bring bring, Margin margin) {
    Need need = Need.of(target, estimate, bring, margin);
    return new Headroom(
        target.flashBytes() - need.flashHigh() - need.flashMargin(),
        target.ramBytes() - need.ram() - need.ramMargin());
  }

  /** Bytes that a plan and its user need together, and what must stay free beside them. */
  record Need(int flash, int flashLow, int flashHigh, int flashMargin, int ram, int ramMargin) {
    static Need of(Target target, Estimate estimate, Bring bring, Margin margin) {
      return new Need(
          estimate.flash().likely() + bring.flashBytes(),
          estimate.flash().low() + bring.flashBytes(),
          estimate.flash().high() + bring.flashBytes(),
          margin.flashBytes(target.flashBytes()),
          estimate.staticRam() + estimate.stack() + bring.ramBytes() + bring.stackBytes(),
          margin.ramBytes());
    }
  }
}
