package dev.ullage.firmware;

import dev.ullage.loop.Board;
import dev.ullage.target.Clock;
import dev.ullage.target.Target;
import java.math.BigDecimal;
import java.util.Locale;

/**
 * The clock that the firmware counts on, and where it comes from.
 *
 * @param hz what the part runs at
 * @param source factory setting, divided by the program, or set by fuses or from outside
 * @param divideLog2 for {@code DIVIDED}: the power of two that the program divides by
 */
public record Clocking(long hz, Source source, int divideLog2) {

  /** Where a clock comes from. */
  public enum Source {
    /** The part runs so as it is delivered. */
    FACTORY,
    /** The program sets the prescaler. */
    DIVIDED,
    /** An internal oscillator that fuses must choose. */
    FUSES,
    /** A crystal or a clock from outside; fuses must choose it. */
    OUTSIDE
  }

  static Clocking of(Board board, Target target) {
    Clock clock = target.clock();
    checkSupply(board, clock);
    long hz = board.clockHz().orElse(clock.factoryHz());
    checkSpeed(board, clock, hz);
    if (hz == clock.factoryHz()) {
      return new Clocking(hz, Source.FACTORY, 0);
    }
    if (clock.prescaler()) {
      // The oscillator that the factory chose; delivered divided by eight or undivided.
      long oscillator =
          clock.internalHz().contains(clock.factoryHz() * 8)
              ? clock.factoryHz() * 8
              : clock.factoryHz();
      for (int log2 = 0; log2 <= 8; log2++) {
        if (oscillator >> log2 == hz && oscillator % (1L << log2) == 0) {
          return new Clocking(hz, Source.DIVIDED, log2);
        }
      }
    }
    return new Clocking(hz, clock.internalHz().contains(hz) ? Source.FUSES : Source.OUTSIDE, 0);
  }

  private static void checkSupply(Board board, Clock clock) {
    BigDecimal volts = board.supplyV().orElse(clock.supplyMax());
    if (volts.compareTo(clock.supplyMin()) < 0 || volts.compareTo(clock.supplyMax()) > 0) {
      throw new Lacking(
          "voltage",
          "the board has "
              + plain(volts)
              + " V, but the part works from "
              + plain(clock.supplyMin())
              + " V to "
              + plain(clock.supplyMax())
              + " V");
    }
  }

  private static void checkSpeed(Board board, Clock clock, long hz) {
    BigDecimal volts = board.supplyV().orElse(clock.supplyMax());
    long most =
        clock.grades().stream()
            .filter(grade -> grade.fromV().compareTo(volts) <= 0)
            .mapToLong(Clock.Grade::maxHz)
            .max()
            .orElse(clock.factoryHz());
    if (hz > most) {
      throw new Lacking(
          "clock",
          "the board runs at "
              + megahertz(hz)
              + ", but at "
              + plain(volts)
              + " V the part is rated for "
              + megahertz(most)
              + " at most");
    }
  }

  private static String plain(BigDecimal volts) {
    return volts.stripTrailingZeros().toPlainString();
  }

  /** A clock as people write it: {@code 1.2 MHz}. */
  public static String megahertz(long hz) {
    return BigDecimal.valueOf(hz, 6).stripTrailingZeros().toPlainString() + " MHz";
  }

  /** This clock as people write it. */
  @Override
  public String toString() {
    return megahertz(hz) + ", " + source.name().toLowerCase(Locale.ROOT);
  }
}
