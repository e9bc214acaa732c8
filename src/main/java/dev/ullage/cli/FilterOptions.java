package dev.ullage.cli;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Family;
import dev.ullage.target.Target;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which parts of the catalogue are looked at; all if no option is given. */
final class FilterOptions {
  @Option(
      names = "--family",
      paramLabel = "NAME",
      description = "Only parts of this family, such as avr-tinyx5.")
  private @Nullable String family;

  @Option(
      names = "--core",
      paramLabel = "NAME",
      description = "Only parts with this core, such as avr25.")
  private @Nullable String core;

  @Option(
      names = "--vmin",
      paramLabel = "VOLTS",
      description = "Only parts of which there is one that runs from this supply voltage.")
  private @Nullable BigDecimal volts;

  @Option(
      names = "--package",
      paramLabel = "NAME",
      description = "Only parts sold in a package whose name contains this, such as DIP-8.")
  private @Nullable String sold;

  /** The parts that are left, in the order of the catalogue. */
  List<Target> apply(Catalogue catalogue, BaseCommand command) {
    Stream<Target> targets = catalogue.targets().stream();
    if (family != null) {
      String wanted =
          known("family", family, catalogue.families().stream().map(Family::name), command);
      targets = targets.filter(target -> target.family().name().equals(wanted));
    }
    if (core != null) {
      String wanted = known("core", core, catalogue.targets().stream().map(Target::core), command);
      targets = targets.filter(target -> target.core().equals(wanted));
    }
    if (volts != null) {
      BigDecimal supply = volts;
      targets = targets.filter(target -> runsFrom(target, supply));
    }
    if (sold != null) {
      String wanted = sold.toLowerCase(Locale.ROOT);
      targets = targets.filter(target -> isSoldIn(target, wanted));
    }
    return targets.toList();
  }

  private static String known(String what, String name, Stream<String> names, BaseCommand command) {
    List<String> known = names.distinct().toList();
    String lower = name.toLowerCase(Locale.ROOT);
    if (!known.contains(lower)) {
      throw command.unknown(what, name, known);
    }
    return lower;
  }

  private static boolean runsFrom(Target target, BigDecimal supply) {
    return target.clock().supplyMin().compareTo(supply) <= 0
        && target.clock().supplyMax().compareTo(supply) >= 0;
  }

  private static boolean isSoldIn(Target target, String name) {
    return target.packages().stream()
        .anyMatch(sold -> sold.name().toLowerCase(Locale.ROOT).contains(name));
  }
}
