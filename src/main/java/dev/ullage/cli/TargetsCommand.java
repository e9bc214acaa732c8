package dev.ullage.cli;

import dev.ullage.report.TargetList;
import dev.ullage.report.TargetSheet;
import dev.ullage.target.Catalogue;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** Shows the catalogue. */
@Command(
    name = "targets",
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
  @Parameters(
      paramLabel = "TARGET",
      arity = "0..1",
      description = "Name of one part, such as attiny85; all parts if left out.")
  private @Nullable String name;

  @Mixin private FilterOptions filter = new FilterOptions();
  @Mixin private OutputOptions output = new OutputOptions();

  TargetsCommand(Surroundings around) {
    super(around);
  }

  @Override
  ExitCode run() {
    Catalogue catalogue = Catalogue.load();
    if (name == null) {
      TargetList list = new TargetList(filter.apply(catalogue, this));
      deliver(list.text(output.format, output.style(around)), output);
    } else {
      TargetSheet sheet = new TargetSheet(target(catalogue, name));
      deliver(sheet.text(output.format, output.style(around)), output);
    }
    return ExitCode.GOOD;
  }
}
