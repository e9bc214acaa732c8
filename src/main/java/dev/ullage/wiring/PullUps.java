package dev.ullage.wiring;

import dev.ullage.firmware.BusMode;
import java.util.List;
import java.util.Optional;

/**
 * What the resistors on the bus lines may be. Formulas: NXP UM10204 Rev. 7.0, section 7.1 "Pull-up
 * resistor sizing"; currents and levels from its table of the I/O stages.
 *
 * @param ohm of each line
 * @param least below this a part cannot pull the line low, in ohm
 * @param most above this the line rises too slowly, in ohm
 * @param riseNs how long the line takes to rise with these, in ns
 * @param mostRiseNs how long it may take
 * @param ma what a part sinks from a line that is low, in mA
 */
public record PullUps(
    int ohm, double least, double most, double riseNs, int mostRiseNs, double ma) {

  /** From 30 to 70 per cent of the supply an RC line takes ln(0.7 / 0.3) of its time constant. */
  private static final double RISE = 0.8473;

  private static final double LOW_V = 0.4;
  private static final double SINK_MA = 3;
  private static final double LOW_SUPPLY_V = 2;
  private static final double LOW_SUPPLY_SHARE = 0.2;
  private static final double LOW_SUPPLY_SINK_MA = 2;

  /** The verdict on the resistors that are there. */
  public enum Verdict {
    GOOD,
    /** Too small: the levels are not reached. */
    TOO_LOW,
    /** Too large: the line rises too slowly. */
    TOO_HIGH,
    /** No value can do both. */
    NO_VALUE
  }

  /**
   * Works it out.
   *
   * @param volts what the resistors pull up to
   * @param capacitancePf of a line
   */
  public static PullUps of(double volts, BusMode mode, int ohm, int capacitancePf) {
    return new PullUps(
        ohm,
        least(volts),
        most(mode.riseNs(), capacitancePf),
        RISE * ohm * capacitancePf / 1000,
        mode.riseNs(),
        1000 * volts / ohm);
  }

  /** (VDD - VOL) / IOL, in ohm. */
  static double least(double volts) {
    return volts > LOW_SUPPLY_V
        ? 1000 * (volts - LOW_V) / SINK_MA
        : 1000 * (volts - LOW_SUPPLY_SHARE * volts) / LOW_SUPPLY_SINK_MA;
  }

  /** tr / (0.8473 Cb), in ohm. */
  static double most(double riseNs, double capacitancePf) {
    return 1000 * riseNs / (RISE * capacitancePf);
  }

  /** Whether these resistors will do. */
  public Verdict verdict() {
    if (least > most) {
      return Verdict.NO_VALUE;
    }
    if (ohm < least) {
      return Verdict.TOO_LOW;
    }
    return riseNs > mostRiseNs ? Verdict.TOO_HIGH : Verdict.GOOD;
  }

  /** The least and the greatest preferred value that will do; empty where there is none. */
  public Optional<List<Double>> range() {
    double low = PreferredValues.atLeast(least);
    return PreferredValues.atMost(most).filter(high -> low <= high).map(high -> List.of(low, high));
  }

  /** The preferred value nearest to the one that is there, of those that will do. */
  public Optional<Double> instead() {
    return range().map(ends -> ohm < least ? ends.get(0) : ends.get(1));
  }

  /** The value to buy: the one that is there where it will do, else the nearest that will. */
  public double toBuy() {
    return verdict() == Verdict.GOOD ? ohm : instead().orElse((double) ohm);
  }
}
