package dev.ullage.cli;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.Assessment;
import dev.ullage.report.Budget;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Target;
import java.nio.file.Path;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Holds a loop against one part, byte by byte. */
@Command(
    name = "budget",
    header = {"Hold a loop against one part, byte by byte.", ""},
    description = {
      "",
      "Says where each byte goes on one part: flash and RAM by module, every buffer, the deepest"
          + " stack, and what was chosen where the loop file leaves it open. Ends with code 1"
          + " when the loop does not fit.",
      ""
    },
    parameterListHeading = "Parameters:%n",
    optionListHeading = "%nOptions:%n",
    footer = {"", "Example: ullage budget cold-store.yaml -t attiny85"})
final class BudgetCommand extends BaseCommand {
  private final EarlyCatalogue catalogue;

  @Parameters(paramLabel = "LOOP", description = "The loop file.")
  private Path file = Path.of("");

  @Option(
      names = {"-t", "--target"},
      paramLabel = "TARGET",
      required = true,
      description = "Name of the part; `ullage targets` lists them.")
  private String targetName = "";

  @Mixin private OutputOptions output = new OutputOptions();

  BudgetCommand(Surroundings around, EarlyCatalogue catalogue) {
    super(around);
    this.catalogue = catalogue;
  }

  @Override
  ExitCode run() {
    Target target = target(catalogue.get(), targetName);
    Loop loop = LoopReader.read(file);
    Assessment assessment = Assessment.of(loop, target, new Sizing(CostTables.packed()));
    Budget budget = new Budget(loop, assessment);
    deliver(budget.text(output.format, output.style(around)), output.file());
    return assessment.holds() ? ExitCode.GOOD : ExitCode.FINDINGS;
  }
}
