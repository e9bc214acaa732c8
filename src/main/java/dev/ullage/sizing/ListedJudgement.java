package dev.ullage.sizing;

import dev.ullage.loop.Loop;
import dev.ullage.sizing.Verdict.Kind;
import dev.ullage.target.ListedPart;
import dev.ullage.target.Rating;
import java.math.BigDecimal;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.stream.Stream;

/**
 * Says what is certain of a loop on a part without a port: what its limits rule out. Where they
 * rule nothing out, it stays open whether the loop fits, for nothing is known of its size there.
 */
final class ListedJudgement {
  private static final Verdict OPEN =
      new Verdict(Kind.TIGHT, "port", "only the limits of the part are known: it has no port yet");

  private final Loop loop;
  private final ListedPart part;

  ListedJudgement(Loop loop, ListedPart part) {
    this.loop = loop;
    this.part = part;
  }

  Verdict verdict() {
    return Stream.<Supplier<Optional<Verdict>>>of(this::voltage, this::clock, this::brought)
        .flatMap(check -> check.get().stream())
        .findFirst()
        .orElse(OPEN);
  }

  private Optional<Verdict> voltage() {
    return loop.board()
        .supplyV()
        .flatMap(volts -> part.rating().filter(r -> !r.covers(volts)).map(r -> outside(volts, r)));
  }

  private static Verdict outside(BigDecimal volts, Rating rating) {
    return new Verdict(
        Kind.LACKS,
        "voltage",
        "the board has %s V, but the part works from %s V to %s V"
            .formatted(plain(volts), plain(rating.supplyMin()), plain(rating.supplyMax())));
  }

  private Optional<Verdict> clock() {
    long hz = loop.board().clockHz().orElse(0);
    return part.rating()
        .filter(rating -> hz > rating.maxHz())
        .map(
            rating ->
                new Verdict(
                    Kind.LACKS,
                    "clock",
                    "the board runs at %s MHz, but the part is rated for %s MHz at most"
                        .formatted(megahertz(hz), megahertz(rating.maxHz()))));
  }

  /** The user's own code alone. */
  private Optional<Verdict> brought() {
    int flash = loop.bring().flashBytes();
    int ram = loop.bring().ramBytes() + loop.bring().stackBytes();
    if (flash > part.flash().orElse(Integer.MAX_VALUE)) {
      return Optional.of(over("flash", flash, part.flash().orElseThrow(), "flash"));
    }
    return ram > part.ram() ? Optional.of(over("ram", ram, part.ram(), "RAM")) : Optional.empty();
  }

  private static Verdict over(String limiting, int need, int capacity, String memory) {
    return new Verdict(
        Kind.OVER,
        limiting,
        "your own code %d B, but %d B of %s".formatted(need, capacity, memory));
  }

  private static String plain(BigDecimal volts) {
    return volts.stripTrailingZeros().toPlainString();
  }

  private static String megahertz(long hz) {
    return plain(BigDecimal.valueOf(hz, 6));
  }
}
