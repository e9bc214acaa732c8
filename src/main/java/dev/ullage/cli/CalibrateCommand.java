package dev.ullage.cli;

import dev.ullage.calibrate.Calibration;
import dev.ullage.calibrate.CrossCompiler;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Makes the cost tables anew. */
@Command(
    name = "calibrate",
    header = {"Measure the cost tables with the compiler that is here.", ""},
    description = {
      "",
      "Compiles every module of the emitted firmware in every variant, once for each kind of part,"
          + " measures the object files, and writes the cost tables that `survey` and `budget`"
          + " read. Takes some ten minutes on two processors. Only needed after a change of the"
          + " templates, the catalogue or the compiler; the tables come with the tool.",
      ""
    },
    optionListHeading = "%nOptions:%n",
    footer = {"", "Example: ullage calibrate -o targets/costs"})
final class CalibrateCommand extends BaseCommand {
  private static final int STEP = 100;

  @Option(
      names = {"-o", "--output"},
      paramLabel = "DIR",
      required = true,
      description = "The folder to write the tables to; it must exist.")
  private Path folder = Path.of("");

  @Option(
      names = "--family",
      paramLabel = "FAMILY",
      description = "Only this family of parts, with the portable modules of its cores.")
  private List<String> families = List.of();

  @Option(
      names = "--module",
      paramLabel = "MODULE",
      description = "Measure this module again, such as alarm, and keep all other rows.")
  private List<String> modules = List.of();

  @Option(
      names = "--missing",
      description = "Keep the rows of the tables that are there, and measure only what they lack.")
  private boolean missing;

  @Option(
      names = "--draws",
      paramLabel = "N",
      defaultValue = "12000",
      description = "How many loops to draw; more find rarer variants (default: ${DEFAULT-VALUE}).")
  private int draws;

  CalibrateCommand(Surroundings around) {
    super(around);
  }

  @Override
  ExitCode run() {
    CrossCompiler compiler = new CrossCompiler();
    if (!compiler.isInstalled()) {
      throw wrongUse("`avr-gcc` is not on the path; install gcc-avr and avr-libc");
    }
    if (!Files.isDirectory(folder)) {
      throw wrongUse("`" + folder + "` is not a folder");
    }
    try {
      write(
          new Calibration(compiler, targets(), draws, Set.copyOf(modules), this::progress)
              .run(missing || !modules.isEmpty() ? tables() : Map.of()));
    } catch (IOException e) {
      throw wrongUse(String.valueOf(e.getMessage()));
    }
    return ExitCode.GOOD;
  }

  private List<Target> targets() {
    Catalogue catalogue = Catalogue.load();
    List<Target> chosen =
        catalogue.targets().stream()
            .filter(each -> families.isEmpty() || families.contains(each.family().name()))
            .toList();
    if (chosen.isEmpty()) {
      throw unknown(
          "family", families.get(0), catalogue.families().stream().map(f -> f.name()).toList());
    }
    return chosen;
  }

  private void progress(int done, int all) {
    if (done % STEP == 0 || done == all) {
      around.err().println(done + " of " + all + " modules compiled");
      around.err().flush();
    }
  }

  private Map<String, String> tables() throws IOException {
    Map<String, String> tables = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(each -> each.toString().endsWith(".tsv")).toList()) {
        tables.put(file.getFileName().toString(), Files.readString(file));
      }
    }
    return tables;
  }

  /** Each table is whole or not there at all. */
  private void write(SortedMap<String, String> tables) throws IOException {
    for (Map.Entry<String, String> table : tables.entrySet()) {
      Path whole = folder.resolve(table.getKey());
      Path part = folder.resolve('.' + table.getKey() + ".part");
      Files.writeString(part, table.getValue());
      Files.move(part, whole, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }
  }
}
