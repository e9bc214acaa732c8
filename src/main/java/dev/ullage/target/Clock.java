package dev.ullage.target;

import java.math.BigDecimal;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a part can run at.
 *
 * @param factoryHz as it leaves the factory, with no fuse and no register touched; where the
 *     settings have it too, what the program sets unless it is told otherwise
 * @param internalHz internal oscillators that fuses can choose, highest first
 * @param settings clocks that the program itself can choose, by Hz
 * @param fused whether fuses choose the oscillator, a clock from outside among them
 * @param grades highest clock by lowest supply voltage, lowest voltage first
 * @param supplyMin, supplyMax the supply range over all order codes, in volts
 */
public record Clock(
    long factoryHz,
    List<Long> internalHz,
    SortedMap<Long, Setting> settings,
    boolean fused,
    List<Grade> grades,
    BigDecimal supplyMin,
    BigDecimal supplyMax) {

  private static final int MOST_HALVINGS = 8;

  public Clock {
    internalHz = List.copyOf(internalHz);
    settings = Collections.unmodifiableSortedMap(new TreeMap<>(settings));
    grades = List.copyOf(grades);
  }

  /** From this supply voltage up the part may run at up to {@code maxHz}. */
  public record Grade(BigDecimal fromV, long maxHz) {}

  /**
   * What the program does for a clock.
   *
   * @param way names the code: {@code divided}
   * @param number C text of its number
   */
  public record Setting(String way, String number) {}

  /**
   * The clocks of a prescaler of powers of two up to 256, behind the oscillator that the factory
   * chose, which is delivered undivided or divided by eight.
   */
  static SortedMap<Long, Setting> halvings(long factoryHz, List<Long> internalHz) {
    long oscillator = internalHz.contains(factoryHz * 8) ? factoryHz * 8 : factoryHz;
    SortedMap<Long, Setting> settings = new TreeMap<>();
    for (int log2 = 0; log2 <= MOST_HALVINGS && oscillator % (1L << log2) == 0; log2++) {
      if (oscillator >> log2 != factoryHz) {
        settings.put(oscillator >> log2, new Setting("yes", log2 + "u"));
      }
    }
    return settings;
  }

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
