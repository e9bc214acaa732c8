package dev.ullage.cli;

import dev.ullage.report.Style;
import dev.ullage.report.TargetList;
import dev.ullage.report.TargetSheet;
import dev.ullage.target.Catalogue;
import dev.ullage.target.CatalogueCheck;
import dev.ullage.target.Mismatch;
import dev.ullage.target.Target;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows the catalogue. */
@Command(
    name = "targets",
    header = {"List the parts, or describe one.", ""},
    description = {
      "",
      "Lists the parts of the catalogue, or says all that it knows of one of them: memories,"
          + " supply, clock, peripherals, and which pin can be what.",
      ""
    },
    parameterListHeading = "Parameters:%n",
    optionListHeading = "%nOptions:%n",
    footer = {"", "Example: ullage targets attiny85"})
final class TargetsCommand extends BaseCommand {
  private final EarlyCatalogue catalogue;

  @Parameters(
      paramLabel = "TARGET",
      arity = "0..1",
      description = "Name of one part, such as attiny85; all parts if left out.")
  private @Nullable String name;

  @Option(
      names = "--check",
      description = "Hold the parts against the headers and device specs of the avr-gcc here.")
  private boolean check;

  @Mixin private FilterOptions filter = new FilterOptions();
  @Mixin private OutputOptions output = new OutputOptions();

  TargetsCommand(Surroundings around, EarlyCatalogue catalogue) {
    super(around);
    this.catalogue = catalogue;
  }

  @Override
  ExitCode run() {
    Catalogue all = catalogue.get();
    List<Target> targets = name == null ? filter.apply(all, this) : List.of(target(all, name));
    if (check) {
      return check(targets);
    }
    deliver(text(targets), output.file());
    return ExitCode.GOOD;
  }

  private String text(List<Target> targets) {
    Style style = output.style(around);
    return name == null
        ? new TargetList(targets).text(output.format, style)
        : new TargetSheet(targets.get(0)).text(output.format, style);
  }

  private ExitCode check(List<Target> targets) {
    CatalogueCheck against =
        CatalogueCheck.fromPath()
            .orElseThrow(
                () -> wrongUse("--check needs `avr-gcc` on the PATH, and it is not there"));
    List<Mismatch> mismatches = against.check(targets);
    String answer =
        mismatches.isEmpty()
            ? "%d targets agree with the headers and device specs of avr-gcc.%n"
                .formatted(targets.size())
            : mismatches.stream().map(m -> m + "\n").collect(Collectors.joining());
    deliver(answer, output.file());
    return mismatches.isEmpty() ? ExitCode.GOOD : ExitCode.FINDINGS;
  }
}
