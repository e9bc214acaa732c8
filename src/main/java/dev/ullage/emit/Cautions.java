package dev.ullage.emit;

import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/**
 * What the README of a firmware has to warn of: always that it is no alarm for safety, fire, gas or
 * health, and not for mains; and what else the loop gives a reason for.
 */
final class Cautions {
  private static final BigDecimal USB_FROM_V = new BigDecimal("4.4");
  private static final BigDecimal COIN_CELL_TO_V = new BigDecimal("3.3");

  private Cautions() {}

  /**
   * The cautions, most general first; plain text, not escaped.
   *
   * @param supplyV what the plan takes as the supply
   */
  static List<String> of(Loop loop, BigDecimal supplyV) {
    List<String> cautions = new ArrayList<>();
    // I2C-bus specification UM10204, section 10.2, on suitability for use.
    cautions.add(
        "This gadget is for learning and convenience. It is not a safety device and must not be"
            + " the only protection against harm or loss.");
    cautions.add(
        "It is not a smoke, fire, gas or carbon monoxide alarm, and does not replace one that"
            + " local rules require.");
    cautions.add("It is not a medical device. Do not use a reading to decide on treatment.");
    cautions.add(
        "Do not connect any part to mains voltage. Leave mains wiring to a qualified person. Local"
            + " codes and licensed practice come first.");
    cautions.add(
        "A single reading can be wrong. Bus errors, a loose wire or a wrong address can give a"
            + " plausible number; check CRC where the part has one, and show a fault when readings"
            + " stop.");
    addElectrical(cautions, loop.outputs(), supplyV);
    return List.copyOf(cautions);
  }

  private static void addElectrical(List<String> cautions, Outputs outputs, BigDecimal supplyV) {
    if (supplyV.compareTo(USB_FROM_V) >= 0) {
      // USB 2.0 specification, section 7.2.1.
      cautions.add(
          "Power it from a supply that can give what all parts take together. A USB 2.0 port need"
              + " give only 100 mA before the device is configured, and at most 500 mA after.");
    }
    if (outputs.sounder().isPresent()) {
      // NIOSH recommended exposure limit.
      cautions.add(
          "Keep loud buzzers away from ears. NIOSH recommends no more than 85 dB(A) over 8 hours;"
              + " each 3 dB more halves the time (88: 4 h, 91: 2 h, 94: 1 h, 97: 30 min, 100:"
              + " 15 min).");
    }
    if (outputs.lamp().isPresent() || outputs.sounder().isPresent()) {
      // Note below the absolute maximum ratings in the ATmega328P data sheet.
      cautions.add(
          "Absolute maximum ratings are limits for damage, not working values. Keep pin current"
              + " well below them.");
    }
    if (supplyV.compareTo(COIN_CELL_TO_V) <= 0) {
      cautions.add("Lithium coin cells must be kept away from children.");
    }
  }
}
