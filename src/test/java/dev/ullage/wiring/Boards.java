package dev.ullage.wiring;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.LoopReader;
import dev.ullage.target.Catalogue;

/** Plans for tests of wiring. */
final class Boards {
  private static final Catalogue CATALOGUE = Catalogue.load();

  private Boards() {}

  /** A thermometer at 0x48 that is asked for two bytes by a register, and lights a lamp. */
  static Wiring thermometer(String part, String boardKeys) {
    return wiring(
        part,
        """
        loop: test
        sensor: {address: 0x48, ask: [0x00], frame: {sample_bytes: 2}}
        alarm: {threshold: 30}
        outputs: {lamp: {}}
        board: {%s}
        """
            .formatted(boardKeys));
  }

  static Wiring wiring(String part, String loop) {
    Plan plan = Plan.of(LoopReader.read("test.yaml", loop), CATALOGUE.target(part).orElseThrow());
    Firmware firmware = ((Plan.Possible) plan).firmware();
    return Wiring.of(firmware, PinMap.of(firmware).get(0));
  }

  static boolean says(Wiring wiring, Remark.Weight weight, String part) {
    return wiring.remarks().stream()
        .anyMatch(remark -> remark.weight() == weight && remark.text().contains(part));
  }
}
