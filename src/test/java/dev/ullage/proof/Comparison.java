package dev.ullage.proof;

import dev.ullage.firmware.Firmware;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Sizing;
import java.util.List;

/**
 * An estimate beside what the linker made.
 *
 * @param shares of each module, start-up and run-time helpers included
 */
record Comparison(Firmware firmware, Estimate estimate, LinkedProgram linked, List<Share> shares) {

  static Comparison of(Firmware firmware, Sizing sizing) {
    Estimate estimate = sizing.estimate(firmware.target(), firmware.modules(), firmware.buffers());
    FirmwareBuild.Linked linked = FirmwareBuild.link(firmware);
    return new Comparison(firmware, estimate, linked.program(), Share.of(estimate, linked.map()));
  }

  String what() {
    return firmware.loop().name() + " on " + firmware.target().name();
  }

  /** Whose cost table the estimate is from. */
  String core() {
    return firmware.target().codeClass();
  }

  /** Everything that is promised of a single program. */
  boolean holds() {
    return ramError() == 0 && stackError() >= 0 && intervalHolds() && flashErrorPercent() <= 2;
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
        what(),
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
