package dev.ullage.cli;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.Assessment;
import dev.ullage.report.Budget;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Part;
import java.nio.file.Path;

/** Holds a loop against one part, byte by byte. */
final class BudgetCommand extends BaseCommand {
  private final EarlyReading early;

  private final Argument<Path> file = Argument.parameter("LOOP", Path.class, "The loop file.");
  private final Argument<String> name =
      Argument.required(
          "-t --target", "TARGET", String.class, "Name of the part; `ullage targets` lists them.");
  private final OutputOptions output = new OutputOptions();

  BudgetCommand(Surroundings around, EarlyReading early) {
    super("budget", around);
    this.early = early;
    describe(
        "Hold a loop against one part, byte by byte.",
        "Says where each byte goes on one part: flash and RAM by module, every buffer, the deepest"
            + " stack, and what was chosen where the loop file leaves it open. Ends with code 1"
            + " when the loop does not fit.",
        "ullage budget cold-store.yaml -t attiny85");
    take(file, name);
    output.addTo(this);
  }

  @Override
  ExitCode run() {
    Part part = part(early.catalogue(), name.value());
    Loop loop = LoopReader.read(file.value());
    Assessment assessment = Assessment.of(loop, part, new Sizing(early.costs()));
    Budget budget = new Budget(loop, assessment);
    deliver(budget.text(output.format(), output.style(around)), output.file());
    return assessment.holds() ? ExitCode.GOOD : ExitCode.FINDINGS;
  }
}
