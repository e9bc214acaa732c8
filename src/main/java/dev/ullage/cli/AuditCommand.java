package dev.ullage.cli;

import dev.ullage.audit.Artefacts;
import dev.ullage.audit.Audit;
import dev.ullage.audit.Baseline;
import dev.ullage.audit.Estimated;
import dev.ullage.audit.Limits;
import dev.ullage.audit.Measured;
import dev.ullage.emit.Manifest;
import dev.ullage.emit.ManifestReader;
import dev.ullage.emit.Origin;
import dev.ullage.firmware.Plan;
import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import dev.ullage.input.SourceText;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Margin;
import dev.ullage.report.Assessment;
import dev.ullage.report.AuditReport;
import dev.ullage.sizing.CoreScale;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Sizing;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Holds what was built against its part, its estimate and what was accepted before. */
final class AuditCommand extends BaseCommand {
  private static final String BASELINE = "ullage.baseline";

  private final EarlyReading early;

  private final Argument<Path> path =
      Argument.parameter(
          "PATH", Path.class, "A folder with a built program, or the program: an ELF file.");
  private final Argument<String> name =
      Argument.option(
          "-t --target",
          "TARGET",
          String.class,
          "Name of the part; a folder that was emitted says it itself.");
  private final Argument<Path> loopFile =
      Argument.option(
          "--loop", "LOOP", Path.class, "The loop file, for its margin and for what it needs.");
  private final Argument<Path> map =
      Argument.option(
          "--map", "FILE", Path.class, "The linker map, where it is not beside the program.");
  private final Argument<Path> baselineFile =
      Argument.option(
          "--baseline",
          "FILE",
          Path.class,
          "What was accepted before (default: " + BASELINE + " in the folder).");
  private final Argument<Boolean> accept =
      Argument.flag("--accept", "Keep what is built now as the baseline.");
  private final Argument<Integer> maxFlash =
      limit("--max-flash", "Most flash that the program may take, in bytes.");
  private final Argument<Integer> maxRam =
      limit("--max-ram", "Most RAM that it may take, with its stack where that has a bound.");
  private final Argument<Integer> maxGrowth =
      limit("--max-growth", "Most that flash, and RAM, may grow since the baseline.");
  private final Argument<Boolean> brief =
      Argument.flag("--brief", "Print one line, for a commit status.");
  private final Argument<Path> picture =
      Argument.option(
          "--picture", "FILE", Path.class, "Write the memory map to this file too, as SVG.");
  private final OutputOptions output = new OutputOptions();

  AuditCommand(Surroundings around, EarlyReading early) {
    super("audit", around);
    this.early = early;
    describe(
        "Hold what was built against its part, and say what grew.",
        "Reads what your compiler left (ELF file, linker map, stack files; Intel hex, or sdcc's"
            + " .mem and .map where there is no ELF file) and says what is left of the part, what"
            + " grew since the baseline, which library code came in and why, and which other parts"
            + " would hold the program. Ends with code 1 when it does not fit or a limit is"
            + " exceeded.",
        "ullage audit firmware --max-growth 64");
    take(path, name, loopFile, map, baselineFile, accept, maxFlash, maxRam, maxGrowth, brief);
    take(picture);
    output.addTo(this);
  }

  private static Argument<Integer> limit(String option, String description) {
    return Argument.option(option, "BYTES", Integer.class, description);
  }

  @Override
  ExitCode run() {
    Measured measured = Artefacts.read(path.value(), map.ifGiven());
    Audit audit = Audit.of(measured, question());
    AuditReport report = new AuditReport(audit);
    deliver(
        brief.value() ? report.line() : report.text(output.format(), output.style(around)),
        output.file());
    picture.ifGiven().ifPresent(file -> deliver(report.picture(), Optional.of(file)));
    if (accept.value()) {
      deliver(Baseline.of(measured).text(), Optional.of(baselinePath()));
      around.err().println("Accepted as the baseline, in `" + baselinePath() + "`.");
    }
    return audit.holds() ? ExitCode.GOOD : ExitCode.FINDINGS;
  }

  private Audit.Question question() {
    Optional<Manifest> manifest = manifest();
    Optional<String> emittedFor = manifest.map(Manifest::origin).map(Origin::target);
    Optional<Target> target =
        name.ifGiven().or(() -> emittedFor).map(each -> target(early.catalogue(), each));
    boolean isOwn = target.map(Target::name).equals(emittedFor);
    Optional<Loop> loop = loopFile.ifGiven().map(LoopReader::read);
    Optional<Assessment> assessment =
        loop.flatMap(
            each -> target.map(part -> Assessment.of(each, part, new Sizing(early.costs()))));
    List<String> notes = new ArrayList<>();
    emittedFor
        .filter(any -> !isOwn)
        .ifPresent(
            part ->
                notes.add(
                    "the program was emitted for "
                        + part
                        + "; emit it for this part before it runs there"));
    if (loop.isEmpty() && target.isPresent()) {
      notes.add(
          "parts that also fit do so by their memories; with `--loop` those that lack a pin or a"
              + " peripheral are left out");
    }
    return new Audit.Question(
        path.value().toString(),
        loop.map(Loop::name).or(() -> manifest.map(Manifest::origin).map(Origin::loop)),
        target,
        emittedFor.flatMap(early.catalogue()::target),
        suitable(loop),
        new CoreScale(early.costs()),
        limits(loop.map(Loop::margin)),
        assessment
            .flatMap(Assessment::estimate)
            .map(AuditCommand::estimated)
            .or(
                () ->
                    manifest.filter(any -> isOwn).map(each -> estimated(each.origin().estimate()))),
        baseline(),
        assessment.map(Assessment::verdict).filter(verdict -> verdict.kind() == Verdict.Kind.LACKS),
        notes);
  }

  /** Parts that have all that the loop needs, where the loop is known. */
  private List<Target> suitable(Optional<Loop> loop) {
    return early.catalogue().targets().stream()
        .filter(part -> loop.map(l -> Plan.of(l, part) instanceof Plan.Possible).orElse(true))
        .toList();
  }

  private static Estimated estimated(Estimate estimate) {
    return new Estimated(
        estimate.flash().low(),
        estimate.flash().likely(),
        estimate.flash().high(),
        estimate.staticRam(),
        estimate.stack());
  }

  private static Estimated estimated(Origin.Figures figures) {
    return new Estimated(
        figures.flashLow(),
        figures.flashLikely(),
        figures.flashHigh(),
        figures.ramStatic(),
        figures.stack());
  }

  private Limits limits(Optional<Margin> margin) {
    return new Limits(
        margin.orElse(Limits.USUAL_MARGIN),
        bytes(maxFlash),
        bytes(maxRam),
        accept.value() ? OptionalInt.empty() : bytes(maxGrowth));
  }

  private OptionalInt bytes(Argument<Integer> option) {
    Optional<Integer> given = option.ifGiven();
    if (given.isPresent() && given.get() < 0) {
      throw wrongUse("A limit must be a number of bytes, but was " + given.get());
    }
    return given.map(OptionalInt::of).orElseGet(OptionalInt::empty);
  }

  private Optional<Manifest> manifest() {
    Path file = path.value().resolve(Manifest.FILE);
    return Files.isRegularFile(file)
        ? Optional.of(ManifestReader.read(file.toString(), SourceText.bytesOf(file)))
        : Optional.empty();
  }

  private Path baselinePath() {
    return baselineFile
        .ifGiven()
        .orElseGet(
            () ->
                Files.isDirectory(path.value())
                    ? path.value().resolve(BASELINE)
                    : path.value().resolveSibling(path.value().getFileName() + ".baseline"));
  }

  private Optional<Baseline> baseline() {
    Path file = baselinePath();
    boolean there = Files.isRegularFile(file);
    if (!there && baselineFile.ifGiven().isPresent() && !accept.value()) {
      throw new InputException(
          new Finding(
              file.toString(),
              0,
              0,
              "",
              "not there",
              "a baseline",
              Optional.of("`--accept` writes one")));
    }
    if (!there && maxGrowth.ifGiven().isPresent() && !accept.value()) {
      throw wrongUse("`--max-growth` needs a baseline, and there is none; `--accept` writes one");
    }
    return there ? readBaseline(file) : Optional.empty();
  }

  /** What is to be replaced anyway may be broken. */
  private Optional<Baseline> readBaseline(Path file) {
    try {
      return Optional.of(Baseline.read(file));
    } catch (InputException broken) {
      if (accept.value()) {
        return Optional.empty();
      }
      throw broken;
    }
  }
}
