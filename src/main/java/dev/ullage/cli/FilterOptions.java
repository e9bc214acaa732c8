package dev.ullage.cli;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Part;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** Which parts of the catalogue are looked at; all if no option is given. */
final class FilterOptions {
  private final Argument<String> family =
      Argument.option(
          "--family", "NAME", String.class, "Only parts of this family, such as avr-tinyx5.");
  private final Argument<String> core =
      Argument.option("--core", "NAME", String.class, "Only parts with this core, such as avr25.");
  private final Argument<BigDecimal> supply =
      Argument.option(
          "--vmin",
          "VOLTS",
          BigDecimal.class,
          "Only parts that run from this supply voltage, or have a version that does.");
  private final Argument<String> sold =
      Argument.option(
          "--package",
          "NAME",
          String.class,
          "Only parts sold in a package whose name contains this, such as DIP-8.");

  void addTo(BaseCommand command) {
    command.take(family, core, supply, sold);
  }

  /** The parts that are left, in the order of the catalogue. */
  List<Part> apply(Catalogue catalogue, BaseCommand command) {
    Optional<String> ofFamily =
        family.ifGiven().map(name -> known("family", name, families(catalogue), command));
    Optional<String> withCore =
        core.ifGiven().map(name -> known("core", name, cores(catalogue), command));
    Optional<BigDecimal> volts = supply.ifGiven();
    Optional<String> packaged = sold.ifGiven().map(name -> knownPackage(name, catalogue, command));
    return catalogue.parts().stream()
        .filter(target -> ofFamily.isEmpty() || target.familyName().equals(ofFamily.get()))
        .filter(target -> withCore.isEmpty() || target.core().equals(withCore.get()))
        .filter(target -> volts.isEmpty() || runsFrom(target, volts.get()))
        .filter(target -> packaged.isEmpty() || isSoldIn(target, packaged.get()))
        .toList();
  }

  private static Stream<String> families(Catalogue catalogue) {
    return catalogue.parts().stream().map(Part::familyName);
  }

  private static Stream<String> cores(Catalogue catalogue) {
    return catalogue.parts().stream().map(Part::core);
  }

  private static String known(String what, String name, Stream<String> names, BaseCommand command) {
    List<String> known = names.distinct().toList();
    String lower = name.toLowerCase(Locale.ROOT);
    if (!known.contains(lower)) {
      throw command.unknown(what, name, known);
    }
    return lower;
  }

  private static String knownPackage(String name, Catalogue catalogue, BaseCommand command) {
    String lower = name.toLowerCase(Locale.ROOT);
    if (catalogue.parts().stream().noneMatch(part -> isSoldIn(part, lower))) {
      throw command.unknown(
          "package",
          name,
          name.toUpperCase(Locale.ROOT),
          catalogue.parts().stream().flatMap(part -> part.packageNames().stream()).toList());
    }
    return lower;
  }

  private static boolean runsFrom(Part part, BigDecimal volts) {
    return part.rating().filter(rating -> rating.covers(volts)).isPresent();
  }

  private static boolean isSoldIn(Part part, String name) {
    return part.packageNames().stream()
        .anyMatch(sold -> sold.toLowerCase(Locale.ROOT).contains(name));
  }
}
