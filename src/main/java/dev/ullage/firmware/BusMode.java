package dev.ullage.firmware;

import dev.ullage.formula.Ratio;
import java.math.BigDecimal;

/**
 * The modes of the two-wire bus, and what a bus that keeps to them may be. Source: NXP UM10204 Rev.
 * 7.0, tables "Characteristics of the SDA and SCL bus lines" and "Characteristics of the SDA and
 * SCL I/O stages".
 */
public enum BusMode {
  STANDARD("Standard-mode", 100_000, "4.7", "4.0", "4.7", "4.7", 1000),
  FAST("Fast-mode", 400_000, "1.3", "0.6", "0.6", "1.3", 300);

  /** The most that a bus line may hold, in pF; the same in both modes. */
  public static final int MOST_PF = 400;

  private final String title;
  private final int mostHz;
  private final Ratio lowUs;
  private final Ratio highUs;
  private final Ratio startUs;
  private final Ratio freeUs;
  private final int riseNs;

  BusMode(
      String title,
      int mostHz,
      String lowUs,
      String highUs,
      String startUs,
      String freeUs,
      int riseNs) {
    this.title = title;
    this.mostHz = mostHz;
    this.lowUs = us(lowUs);
    this.highUs = us(highUs);
    this.startUs = us(startUs);
    this.freeUs = us(freeUs);
    this.riseNs = riseNs;
  }

  private static Ratio us(String text) {
    return Ratio.of(new BigDecimal(text));
  }

  /** The mode of a bus that may be clocked at this rate. */
  public static BusMode of(int speedHz) {
    return speedHz <= STANDARD.mostHz ? STANDARD : FAST;
  }

  /** As the specification writes it. */
  public String title() {
    return title;
  }

  /** The fastest clock, in Hz. */
  public int mostHz() {
    return mostHz;
  }

  /** Least low time of the clock, in us. */
  public double leastLowUs() {
    return lowUs.approximately();
  }

  /** Least high time of the clock, in us; the hold of START and the set-up of STOP are the same. */
  public double leastHighUs() {
    return highUs.approximately();
  }

  /** Least set-up of a repeated START, in us. */
  public double leastStartUs() {
    return startUs.approximately();
  }

  /** Least time between STOP and START, in us. */
  public double leastFreeUs() {
    return freeUs.approximately();
  }

  /** The longest that a line may take to rise, in ns. */
  public int riseNs() {
    return riseNs;
  }

  Ratio lowUs() {
    return lowUs;
  }

  Ratio highUs() {
    return highUs;
  }

  Ratio startUs() {
    return startUs;
  }
}
