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
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Part;
import java.nio.file.Path;
import java.util.Optional;

/** Writes the firmware of a loop on one part. */
final class EmitCommand extends BaseCommand {
  private final EarlyReading early;

  private final Argument<Path> file = Argument.parameter("LOOP", Path.class, "The loop file.");
  private final Argument<String> name =
      Argument.required(
          "-t --target", "TARGET", String.class, "Name of the part; `ullage targets` lists them.");
  private final Argument<Path> folder =
      Argument.required(
          "-o --output", "DIR", Path.class, "The folder: absent, empty, or emitted before.");

  EmitCommand(Surroundings around, EarlyReading early) {
    super("emit", around);
    this.early = early;
    describe(
        "Write the firmware of a loop on one part.",
        "Writes the firmware: C sources, a Makefile, host checks, and a README with pins, wiring"
            + " and memory. Emitting into the same folder again replaces only what you have not"
            + " changed; where you have, the new text lands beside yours, and the command says where"
            + " and ends with code 1. It does so too when the loop does not fit the part.",
        "ullage emit cold-store.yaml -t attiny85 -o firmware");
    take(file, name, folder);
  }

  @Override
  ExitCode run() {
    Part part = part(early.catalogue(), name.value());
    Loop loop = LoopReader.read(file.value());
    Assessment assessment = Assessment.of(loop, part, new Sizing(early.costs()));
    Optional<WriteResult> written = emission(assessment).map(this::write);
    Style style = new Style(Style.COLUMNS, false);
    deliver(
        EmitReport.text(folder.value().toString(), assessment, written, style), Optional.empty());
    boolean good = assessment.holds() && written.filter(WriteResult::needsAttention).isEmpty();
    return good ? ExitCode.GOOD : ExitCode.FINDINGS;
  }

  private static Optional<Emission> emission(Assessment assessment) {
    Origin.Versions versions = new Origin.Versions(Version.text(), Version.text());
    Budget budget = EmitReport.budget(assessment);
    return assessment.plan().map(plan -> Emitter.emit(plan, budget, versions));
  }

  private WriteResult write(Emission emission) {
    return new FolderWriter().write(folder.value(), emission);
  }
}
