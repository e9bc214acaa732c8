package dev.ullage.proof;

import dev.ullage.firmware.Firmware;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Sizing;

/** An estimate beside what the linker made. */
record Comparison(String what, Estimate estimate, LinkedProgram linked) {

  static Comparison of(String what, Firmware firmware, Sizing sizing) {
    Estimate estimate = sizing.estimate(firmware.target(), firmware.modules(), firmware.buffers());
    return new Comparison(what, estimate, FirmwareBuild.link(firmware));
  }

  /** Bytes of flash that the estimate is too high. */
  int flashError() {
    return estimate.flash().likely() - linked.flashBytes();
  }

  double flashErrorPercent() {
    return 100.0 * Math.abs(flashError()) / linked.flashBytes();
  }

  boolean intervalHolds() {
    return estimate.flash().low() <= linked.flashBytes()
        && linked.flashBytes() <= estimate.flash().high();
  }

  double intervalPercent() {
    return 100.0 * (estimate.flash().high() - estimate.flash().low()) / linked.flashBytes();
  }

  int ramError() {
    return estimate.staticRam() - linked.staticRamBytes();
  }

  int stackError() {
    return estimate.stack() - linked.stack().bytes();
  }

  @Override
  public String toString() {
    return String.format(
        java.util.Locale.ROOT,
        "%s: flash %d, estimated %d..%d..%d; static RAM %d, estimated %d; stack %d, estimated %d",
        what,
        linked.flashBytes(),
        estimate.flash().low(),
        estimate.flash().likely(),
        estimate.flash().high(),
        linked.staticRamBytes(),
        estimate.staticRam(),
        linked.stack().bytes(),
        estimate.stack());
  }
}
