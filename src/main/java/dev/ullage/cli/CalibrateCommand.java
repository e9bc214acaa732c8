package dev.ullage.cli;

import dev.ullage.calibrate.Calibration;
import dev.ullage.calibrate.CrossCompiler;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Makes the cost tables anew. */
final class CalibrateCommand extends BaseCommand {
  private final Argument<Path> folder =
      Argument.required(
          "-o --output", "DIR", Path.class, "The folder to write the tables to; it must exist.");
  private final Argument<List<String>> families =
      Argument.several(
          "--family",
          "FAMILY",
          "Only this family of parts, with the portable modules of its cores.");
  private final Argument<List<String>> modules =
      Argument.several(
          "--module",
          "MODULE",
          "Measure this module again, such as alarm, and keep all other rows.");
  private final Argument<Boolean> missing =
      Argument.flag(
          "--missing",
          "Keep the rows of the tables that are there, and measure only what they lack.");
  private final Argument<Integer> draws =
      Argument.option(
          "--draws",
          "N",
          Integer.class,
          "12000",
          "How many loops to draw; more find rarer variants (default: ${DEFAULT-VALUE}).");

  CalibrateCommand(Surroundings around) {
    super("calibrate", around);
    describe(
        "Measure the cost tables with the compiler that is here.",
        "Compiles every module of the emitted firmware in every variant, once for each kind of"
            + " part, measures the object files, and writes the cost tables that `survey` and"
            + " `budget` read. Takes some ten minutes on two processors. Only needed after a"
            + " change of the templates, the catalogue or the compiler; the tables come with the"
            + " tool.",
        "ullage calibrate -o targets/costs");
    take(folder, families, modules, missing, draws);
  }

  @Override
  ExitCode run() {
    if (!Files.isDirectory(folder.value())) {
      throw wrongUse("`" + folder.value() + "` is not a folder");
    }
    Map<String, List<Target>> byCompiler =
        targets().stream()
            .collect(
                Collectors.groupingBy(
                    each -> each.toolchain().compiler(), TreeMap::new, Collectors.toList()));
    for (List<Target> targets : byCompiler.values()) {
      calibrate(new CrossCompiler(targets.get(0).toolchain()), targets);
    }
    return ExitCode.GOOD;
  }

  private void calibrate(CrossCompiler compiler, List<Target> targets) {
    if (!compiler.isInstalled()) {
      throw wrongUse(
          "`"
              + compiler.command()
              + "` is not on the path; install it, or name families with --family");
    }
    try {
      write(
          new Calibration(
                  compiler,
                  targets,
                  draws.value(),
                  Set.copyOf(modules.value()),
                  new Progress(around, "modules compiled")::at)
              .run(missing.value() || !modules.value().isEmpty() ? tables() : Map.of()));
    } catch (IOException e) {
      throw wrongUse(String.valueOf(e.getMessage()));
    }
  }

  private List<Target> targets() {
    Catalogue catalogue = Catalogue.load();
    List<Target> chosen =
        catalogue.targets().stream()
            .filter(
                each ->
                    families.value().isEmpty() || families.value().contains(each.family().name()))
            .toList();
    if (chosen.isEmpty()) {
      throw unknown(
          "family",
          families.value().get(0),
          catalogue.families().stream().map(f -> f.name()).toList());
    }
    return chosen;
  }

  private Map<String, String> tables() throws IOException {
    Map<String, String> tables = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder.value())) {
      for (Path file : files.filter(each -> each.toString().endsWith(".tsv")).toList()) {
        tables.put(
            file.getFileName().toString(), Files.readString(file, StandardCharsets.ISO_8859_1));
      }
    }
    return tables;
  }

  /** Each table is whole or not there at all. */
  private void write(SortedMap<String, String> tables) throws IOException {
    for (Map.Entry<String, String> table : tables.entrySet()) {
      Path whole = folder.value().resolve(table.getKey());
      Path part = folder.value().resolve('.' + table.getKey() + ".part");
      Files.writeString(part, table.getValue(), StandardCharsets.ISO_8859_1);
      Files.move(part, whole, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }
  }
}
