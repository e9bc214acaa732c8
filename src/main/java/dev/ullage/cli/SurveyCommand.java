package dev.ullage.cli;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.Assessment;
import dev.ullage.report.Survey;
import dev.ullage.report.SurveyOrder;
import dev.ullage.sizing.CostTables;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Holds a loop against the whole catalogue. */
@Command(
    name = "survey",
    header = {"Hold a loop against every part of the catalogue.", ""},
    description = {
      "",
      "Holds a loop against every part of the catalogue and says for each whether it fits, how"
          + " much flash and RAM it takes, what is left, and what is short where it does not"
          + " fit. No compiler is needed. Ends with code 1 when no part holds it.",
      ""
    },
    parameterListHeading = "Parameters:%n",
    optionListHeading = "%nOptions:%n",
    footer = {"", "Example: ullage survey cold-store.yaml --fits --package DIP-8"})
final class SurveyCommand extends BaseCommand {
  private final EarlyCatalogue catalogue;

  @Parameters(paramLabel = "LOOP", description = "The loop file.")
  private Path file = Path.of("");

  @Option(
      names = "--fits",
      description = "Only parts that hold the loop: those that say fits or tight.")
  private boolean fitsOnly;

  @Option(
      names = "--sort",
      paramLabel = "ORDER",
      defaultValue = "size",
      description =
          "size (default: those that fit first, the smallest first of all), name, flash or ram"
              + " (where most is left first).")
  private SurveyOrder order = SurveyOrder.SIZE;

  @Mixin private FilterOptions filter = new FilterOptions();
  @Mixin private OutputOptions output = new OutputOptions();

  SurveyCommand(Surroundings around, EarlyCatalogue catalogue) {
    super(around);
    this.catalogue = catalogue;
  }

  @Override
  ExitCode run() {
    Loop loop = LoopReader.read(file);
    CostTables costs = CostTables.packed();
    Survey all = Survey.of(loop, filter.apply(catalogue.get(), this), costs).sorted(order);
    Survey shown = fitsOnly ? all.only(Assessment::holds) : all;
    deliver(shown.text(output.format, output.style(around)), output.file());
    return all.rows().stream().anyMatch(Assessment::holds) ? ExitCode.GOOD : ExitCode.FINDINGS;
  }
}
