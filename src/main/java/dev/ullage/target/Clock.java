package dev.ullage.target;

import java.math.BigDecimal;
import java.util.List;

/**
 * What a part can run at.
 *
 * @param factoryHz as it leaves the factory, with no fuse and no register touched
 * @param internalHz internal oscillators that fuses can choose, highest first
 * @param prescaler true where the program itself can divide the clock by a power of two
 * @param grades highest clock by lowest supply voltage, lowest voltage first
 * @param supplyMin, supplyMax the supply range over all order codes, in volts
 */
public record Clock(
    long factoryHz,
    List<Long> internalHz,
    boolean prescaler,
    List<Grade> grades,
    BigDecimal supplyMin,
    BigDecimal supplyMax) {

  public Clock {
    internalHz = List.copyOf(internalHz);
    grades = List.copyOf(grades);
  }

  /** From this supply voltage up the part may run at up to {@code maxHz}. */
  public record Grade(BigDecimal fromV, long maxHz) {}

  /** The lowest supply voltage at which the part may run at this clock. */
  public BigDecimal supplyFrom(long hz) {
    return grades.stream()
        .filter(grade -> grade.maxHz() >= hz)
        .map(Grade::fromV)
        .min(BigDecimal::compareTo)
        .orElse(supplyMax)
        .max(supplyMin);
  }

  /** The highest clock of any order code. */
  public long maxHz() {
    return grades.stream().mapToLong(Grade::maxHz).max().orElse(factoryHz);
  }
}
