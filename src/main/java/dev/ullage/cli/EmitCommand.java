package dev.ullage.cli;

import dev.ullage.emit.Budget;
import dev.ullage.emit.Emission;
import dev.ullage.emit.Emitter;
import dev.ullage.emit.FolderWriter;
import dev.ullage.emit.Origin;
import dev.ullage.emit.WriteResult;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.Assessment;
import dev.ullage.report.EmitReport;
import dev.ullage.report.Style;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Target;
import java.nio.file.Path;
import java.util.Optional;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Writes the firmware of a loop on one part. */
@Command(
    name = "emit",
    header = {"Write the firmware of a loop on one part.", ""},
    description = {
      "",
      "Writes the firmware: C sources, a Makefile, host checks, and a README with pins, wiring and"
          + " memory. Emitting into the same folder again replaces only what you have not changed;"
          + " where you have, the new text lands beside yours as NAME.new, and the command ends"
          + " with code 1. It does so too when the loop does not fit the part.",
      ""
    },
    parameterListHeading = "Parameters:%n",
    optionListHeading = "%nOptions:%n",
    footer = {"", "Example: ullage emit cold-store.yaml -t attiny85 -o firmware"})
final class EmitCommand extends BaseCommand {
  private final EarlyCatalogue catalogue;

  @Parameters(paramLabel = "LOOP", description = "The loop file.")
  private Path file = Path.of("");

  @Option(
      names = {"-t", "--target"},
      paramLabel = "TARGET",
      required = true,
      description = "Name of the part; `ullage targets` lists them.")
  private String targetName = "";

  @Option(
      names = {"-o", "--output"},
      paramLabel = "DIR",
      required = true,
      description = "The folder: absent, empty, or emitted before.")
  private Path folder = Path.of("");

  EmitCommand(Surroundings around, EarlyCatalogue catalogue) {
    super(around);
    this.catalogue = catalogue;
  }

  @Override
  ExitCode run() {
    Target target = target(catalogue.get(), targetName);
    Loop loop = LoopReader.read(file);
    Assessment assessment = Assessment.of(loop, target, new Sizing(CostTables.packed()));
    Optional<WriteResult> written = emission(assessment).map(this::write);
    Style style = new Style(Style.COLUMNS, false);
    deliver(EmitReport.text(folder.toString(), assessment, written, style), Optional.empty());
    boolean good = assessment.holds() && written.filter(WriteResult::needsAttention).isEmpty();
    return good ? ExitCode.GOOD : ExitCode.FINDINGS;
  }

  private static Optional<Emission> emission(Assessment assessment) {
    Origin.Versions versions = new Origin.Versions(Version.text(), Version.text());
    Budget budget = EmitReport.budget(assessment);
    return assessment.plan().map(plan -> Emitter.emit(plan, budget, versions));
  }

  private WriteResult write(Emission emission) {
    return new FolderWriter().write(folder, emission);
  }
}
