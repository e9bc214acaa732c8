package dev.ullage.wiring;

import dev.ullage.loop.Board.Role;

/**
 * How an output is driven.
 *
 * @param role lamp, sounder or relay
 * @param ma what flows while it is on
 * @param transistor whether a transistor must carry it
 * @param high whether a high pin switches it on
 * @param baseOhm between the pin and that transistor's base, where there is one; else 0
 */
public record OutputDrive(Role role, double ma, boolean transistor, boolean high, double baseOhm) {

  // A base current of a twentieth drives any small transistor hard enough, and 0.7 V stand between
  // base and emitter (common practice, no source).
  private static final double FORCED_GAIN = 20;
  private static final double BASE_V = 0.7;

  /** Small transistors have this gain at least, far from their greatest current. */
  private static final double LEAST_GAIN = 50;

  private static final double LEAST_BASE_MA = 0.5;

  static OutputDrive direct(Role role, double ma, boolean high) {
    return new OutputDrive(role, ma, false, high, 0);
  }

  /**
   * @param mostMa what the pin gives with its levels kept; 0 where it is not known
   */
  static OutputDrive through(Role role, double ma, boolean high, double supplyV, double mostMa) {
    double most = baseOhm(supplyV, Math.max(LEAST_BASE_MA, ma / FORCED_GAIN));
    double ohm = PreferredValues.atMost(most).orElse(most);
    if (mostMa > 0) {
      ohm = Math.max(ohm, PreferredValues.atLeast(baseOhm(supplyV, mostMa)));
    }
    return new OutputDrive(role, ma, true, high, ohm);
  }

  private static double baseOhm(double supplyV, double baseMa) {
    return 1000 * (supplyV - BASE_V) / baseMa;
  }

  /** Whether the pin gives the transistor too little. */
  boolean starves(double supplyV) {
    return transistor && ma > LEAST_GAIN * pinMa(supplyV);
  }

  /** {@code NPN} at the ground side, or {@code PNP} at the supply's. */
  public String kind() {
    return high ? "NPN" : "PNP";
  }

  /** What the pin gives, in mA. */
  public double pinMa(double supplyV) {
    return transistor ? 1000 * (supplyV - BASE_V) / baseOhm : ma;
  }
}
