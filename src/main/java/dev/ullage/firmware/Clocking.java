package dev.ullage.firmware;

import dev.ullage.loop.Board;
import dev.ullage.target.Clock;
import dev.ullage.target.Target;
import java.math.BigDecimal;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The clock that the firmware counts on, and where it comes from.
 *
 * @param hz what the part runs at
 * @param source factory setting, set by the program or by fuses, or from outside
 * @param setting what the program does for it
 */
public record Clocking(long hz, Source source, Optional<Clock.Setting> setting) {

  /** What the ways begin with that need a crystal. */
  private static final String CRYSTAL = "crystal";

  /** Where a clock comes from. */
  public enum Source {
    /** The part runs so as it is delivered. */
    FACTORY,
    /** The program sets it. */
    PROGRAM,
    /** The program sets it, from a crystal that the part cannot do without. */
    CRYSTAL,
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
    if (clock.settings().containsKey(hz)) {
      Clock.Setting setting = clock.settings().get(hz);
      return new Clocking(
          hz,
          setting.way().startsWith(CRYSTAL) ? Source.CRYSTAL : Source.PROGRAM,
          Optional.of(setting));
    }
    if (hz == clock.factoryHz()) {
      return new Clocking(hz, Source.FACTORY, Optional.empty());
    }
    if (!clock.fused()) {
      throw new Lacking("clock", without(clock, hz));
    }
    Source source = clock.internalHz().contains(hz) ? Source.FUSES : Source.OUTSIDE;
    return new Clocking(hz, source, Optional.empty());
  }

  private static String without(Clock clock, long hz) {
    Stream<Long> all =
        Stream.concat(Stream.of(clock.factoryHz()), clock.settings().keySet().stream());
    return "the board runs at "
        + megahertz(hz)
        + ", but the port can set "
        + all.sorted().map(Clocking::megahertz).collect(Collectors.joining(", "));
  }

  private static void checkSupply(Board board, Clock clock) {
    BigDecimal volts = supplyV(board, clock);
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
    BigDecimal volts = supplyV(board, clock);
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

  /** What the board gives, or else the most that the part may have, in volts. */
  public static BigDecimal supplyV(Board board, Clock clock) {
    return board.supplyV().orElse(clock.supplyMax());
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
