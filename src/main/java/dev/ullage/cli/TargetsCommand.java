package dev.ullage.cli;

import dev.ullage.report.ListedSheet;
import dev.ullage.report.Style;
import dev.ullage.report.TargetList;
import dev.ullage.report.TargetSheet;
import dev.ullage.target.Catalogue;
import dev.ullage.target.CatalogueCheck;
import dev.ullage.target.ListedPart;
import dev.ullage.target.Mismatch;
import dev.ullage.target.Part;
import dev.ullage.target.Target;
import java.util.List;
import java.util.stream.Collectors;

/** Shows the catalogue. */
final class TargetsCommand extends BaseCommand {
  private final EarlyReading early;

  private final Argument<String> name =
      Argument.optionalParameter(
          "TARGET", String.class, "Name of one part, such as attiny85; all parts if left out.");
  private final Argument<Boolean> check =
      Argument.flag(
          "--check", "Hold the parts against the headers and device specs of the avr-gcc here.");
  private final FilterOptions filter = new FilterOptions();
  private final OutputOptions output = new OutputOptions();

  TargetsCommand(Surroundings around, EarlyReading early) {
    super("targets", around);
    this.early = early;
    describe(
        "List the parts, or describe one.",
        "Lists the parts of the catalogue, or says all that it knows of one of them: memories,"
            + " supply, clock, peripherals, and which pin can be what.",
        "ullage targets attiny85");
    take(name, check);
    filter.addTo(this);
    output.addTo(this);
  }

  @Override
  ExitCode run() {
    Catalogue all = early.catalogue();
    List<Part> parts =
        name.ifGiven()
            .map(part -> List.of(part(all, part)))
            .orElseGet(() -> filter.apply(all, this));
    if (check.value()) {
      return check(parts);
    }
    deliver(text(parts), output.file());
    return ExitCode.GOOD;
  }

  private String text(List<Part> parts) {
    Style style = output.style(around);
    if (name.ifGiven().isEmpty()) {
      return new TargetList(parts).text(output.format(), style);
    }
    return parts.get(0) instanceof Target target
        ? new TargetSheet(target).text(output.format(), style)
        : new ListedSheet((ListedPart) parts.get(0)).text(output.format(), style);
  }

  /** Of other parts no header is at hand. */
  private ExitCode check(List<Part> parts) {
    List<Target> targets =
        parts.stream()
            .filter(Target.class::isInstance)
            .map(Target.class::cast)
            .filter(CatalogueCheck::knows)
            .toList();
    CatalogueCheck against =
        CatalogueCheck.fromPath()
            .orElseThrow(
                () -> wrongUse("--check needs `avr-gcc` on the PATH, and it is not there"));
    if (targets.isEmpty()) {
      throw wrongUse("--check holds AVR parts against headers, and none of these is one");
    }
    List<Mismatch> mismatches = against.check(targets);
    String answer =
        mismatches.isEmpty()
            ? "These agree with the headers and device specs of avr-gcc: %d of %d targets.\n"
                .formatted(targets.size(), parts.size())
            : mismatches.stream().map(m -> m + "\n").collect(Collectors.joining());
    deliver(answer, output.file());
    return mismatches.isEmpty() ? ExitCode.GOOD : ExitCode.FINDINGS;
  }
}
