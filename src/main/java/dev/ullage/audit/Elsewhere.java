package dev.ullage.audit;

import dev.ullage.loop.Margin;
import dev.ullage.sizing.CoreScale;
import dev.ullage.sizing.Estimate.Grade;
import dev.ullage.sizing.Estimate.Interval;
import dev.ullage.sizing.Verdict.Kind;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Another part that would hold the program: the second source when one is out of stock.
 *
 * @param grade {@code MEASURED} where its core runs the same bytes, {@code MODELLED} where they are
 *     scaled
 * @param samePort whether the registers are the same, so that nothing has to be written anew
 * @param samePackage whether it is sold in a package that the part has too
 * @param flash what it would take; the vectors are those of the other part
 * @param flashLeft, ramLeft what is free beyond the margin, for certain
 */
public record Elsewhere(
    Target target,
    Grade grade,
    boolean samePort,
    boolean samePackage,
    Interval flash,
    int flashLeft,
    int ramLeft,
    Kind verdict) {

  /**
   * Parts that it fits, the handiest first: with room to spare, same core, same registers, same
   * package, smallest.
   *
   * @param home the part that it was built for
   */
  static List<Elsewhere> of(
      Measured measured, Target home, List<Target> catalogue, CoreScale scale, Margin margin) {
    List<Elsewhere> found = new ArrayList<>();
    for (Target each : catalogue) {
      if (!each.name().equals(home.name())) {
        of(measured, home, each, scale, margin).ifPresent(found::add);
      }
    }
    found.sort(
        Comparator.comparing(Elsewhere::verdict)
            .thenComparing(Elsewhere::grade)
            .thenComparing(e -> !e.samePort())
            .thenComparing(e -> !e.samePackage())
            .thenComparing(e -> e.target().flashBytes())
            .thenComparing(e -> e.target().ramBytes())
            .thenComparing(e -> e.target().name()));
    return found;
  }

  private static Optional<Elsewhere> of(
      Measured measured, Target home, Target other, CoreScale scale, Margin margin) {
    boolean same = other.codeClass().equals(home.codeClass());
    int body = measured.figures().flash() - measured.figures().vectors();
    int vectors = other.vectors() * other.vectorBytes();
    Optional<Interval> flash =
        same
            ? Optional.of(new Interval(body, body, body))
            : scale.scaled(body, home.codeClass(), other.codeClass());
    int deeper = other.returnAddressBytes() - home.returnAddressBytes();
    int ram = Fit.ram(measured) + Math.max(0, deeper * measured.stack().path().size());
    return flash
        .map(f -> new Interval(f.low() + vectors, f.likely() + vectors, f.high() + vectors))
        .map(f -> held(measured, home, other, same, f, ram, margin))
        .filter(e -> e.verdict() == Kind.FITS || e.verdict() == Kind.TIGHT);
  }

  private static Elsewhere held(
      Measured measured,
      Target home,
      Target other,
      boolean same,
      Interval flash,
      int ram,
      Margin margin) {
    int flashLeft = other.flashBytes() - flash.high() - margin.flashBytes(other.flashBytes());
    int ramLeft = other.ramBytes() - ram - margin.ramBytes();
    boolean over =
        flash.low() > other.flashBytes()
            || ram > other.ramBytes()
            || measured.figures().eeprom() > other.eepromBytes();
    boolean fits = flashLeft >= 0 && ramLeft >= 0 && measured.stack().isBound();
    return new Elsewhere(
        other,
        same ? Grade.MEASURED : Grade.MODELLED,
        other.family().name().equals(home.family().name()),
        sharesPackage(home, other),
        flash,
        flashLeft,
        ramLeft,
        over ? Kind.OVER : fits ? Kind.FITS : Kind.TIGHT);
  }

  private static boolean sharesPackage(Target one, Target other) {
    Set<String> names = one.packages().stream().map(p -> p.name()).collect(Collectors.toSet());
    return other.packages().stream().anyMatch(p -> names.contains(p.name()));
  }
}
