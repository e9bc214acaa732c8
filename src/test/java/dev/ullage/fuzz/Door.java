package dev.ullage.fuzz;

import dev.ullage.audit.Artefacts;
import dev.ullage.audit.Baseline;
import dev.ullage.cli.Run;
import dev.ullage.emit.ManifestReader;
import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.input.SourceText;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.ObjectFile;
import dev.ullage.replay.Trace;
import dev.ullage.replay.TraceOptions;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.CostWriter;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Where files come in: for each a name, valid files, words of their format, and what reads them.
 */
record Door(String name, List<byte[]> samples, List<String> words, Reader reader) {

  /** Reads a file that may be damaged; the only exception that it may throw is for bad input. */
  interface Reader {
    void read(byte[] bytes) throws IOException;
  }

  private static final List<String> YAML =
      List.of(
          ":",
          ": ",
          "- ",
          "? ",
          "{",
          "}",
          "[",
          "]",
          ",",
          "#",
          "&a ",
          "*a",
          "!!str ",
          "|\n",
          ">\n",
          "'",
          "\"",
          "\\",
          "---\n",
          "...\n",
          "\t",
          "\n",
          "  ",
          "\r",
          "<<: ",
          "~",
          "null",
          "0x",
          "\0",
          "\u0085",
          "\u2028",
          "\ufeff",
          "{a: ",
          "\"\\ud800\"",
          "\ud83d\udc1d",
          "%YAML 1.1\n");

  private static final List<String> CATALOGUE =
      joined(
          YAML,
          "targets:",
          "pins:",
          "clocks:",
          "grade: listed",
          "at: PB7 PB6 af=1 | ",
          "in 0..255",
          "clock / ",
          "<<",
          ">>",
          "(",
          ")",
          "%",
          " * ",
          "family:",
          "packages:",
          "..",
          "/",
          "|",
          "max(",
          "min(",
          "ceil(",
          "floor(",
          "name = ");

  private static final List<String> COSTS =
      List.of(
          "\t",
          "\n",
          "=",
          "+",
          " ",
          "@",
          ">",
          "~",
          "/",
          "*",
          "[",
          "]",
          ",",
          "C ",
          "z x 1 2",
          "#",
          "# ullage cost table, format 1\n",
          "# compiler: ",
          "+__mulhi3",
          "=alarm[]",
          "-",
          "main");

  private static final List<String> CSV =
      List.of(
          ",", ";", "\t", "\"", "\"\"", "\n", "\r", "\r\n", "#", "-", ".", "e", "e99", "0x",
          "time_ms", "time_s,", "raw", "byte1", "bytes", "NaN", "\0", "\ufeff", " ", "+", "value",
          "'");

  private static final List<String> BINARY =
      List.of(
          "\177ELF",
          "\0",
          "\0\0\0\0",
          ".text",
          ".data",
          ".bss",
          ".symtab",
          ".strtab",
          ".rel.text",
          "main",
          "!<arch>\n",
          "//",
          "/0",
          "`\n",
          "\uffff");

  private static final List<String> TOOLS =
      List.of(
          "\t",
          "\n",
          "\r",
          " ",
          "0x",
          ":",
          "(",
          ")",
          "static",
          "dynamic",
          "bounded",
          "main",
          "node: { title: \"",
          "edge: { sourcename: \"",
          "\" targetname: \"main\" }",
          "\" label: \"",
          " bytes (static)",
          "Linker script and memory map\n",
          "Memory Configuration\n",
          ".text",
          " .text.main 0x0 0x10 a.o\n",
          "FLASH 0x0 0xffffffff xr\n",
          "LOAD ",
          "*fill*",
          "\0",
          "\\n");

  private static final List<String> HEX =
      List.of(":", ":00000001FF\n", ":020000040000FA\n", "\n", "F", "0", "00", " ", ";");

  private static final List<String> SDCC =
      List.of(
          "ASxxxx Linker",
          "CODE  00000000  7FFFFFFF =  1. bytes (REL,CON)\n",
          "|",
          "0x00:|",
          "Internal RAM layout:",
          "ROM/EPROM/FLASH",
          "EXTERNAL RAM",
          "with 1 bytes available",
          "\n");

  private static final List<String> JSON =
      List.of(
          "{",
          "}",
          "[",
          "]",
          ":",
          ",",
          "\"",
          "\\",
          "null",
          "true",
          "1e999",
          "{\"a\":",
          "../",
          "\\u0000",
          "\"schema\"",
          "\"files\"",
          "\"loop\"",
          "//",
          "\n",
          "\0",
          "-",
          "\ud800");

  private static final List<String> BASELINE =
      List.of(
          "\t",
          "\n",
          "# ullage baseline 1:\n",
          "code",
          "bss",
          "stack\t",
          "compiler\t",
          "-",
          "<<<<<<<",
          "=======",
          ">>>>>>>",
          "\0",
          "\r",
          "a\tb\tcode\t1\t-\n");

  private static final int MORE_OF_QUICK = 15;
  private static final int MORE_OF_ARTEFACTS = 2;

  private static final String TARGET = "attiny85";
  private static final String OWN = "generated-samples/cold-store/cold-store.yaml";
  private static final Loop OWN_LOOP = LoopReader.read(Path.of(OWN));

  private static List<String> joined(List<String> words, String... more) {
    return Stream.concat(words.stream(), Stream.of(more)).toList();
  }

  /** Doors for what people write or keep. */
  static List<Door> ofTexts(Path work) throws IOException {
    List<Door> all = new ArrayList<>();
    addTexts(all, work);
    addCatalogue(all, work);
    addCosts(all);
    List<String> quick = List.of("loop", "trace", "manifest", "baseline");
    List<Door> again = all.stream().filter(door -> quick.contains(door.name())).toList();
    for (int i = 0; i < MORE_OF_QUICK; i++) {
      all.addAll(again);
    }
    return all;
  }

  /**
   * Doors for what toolchains leave.
   *
   * @param built a folder for each of them, with {@code program.elf} and others
   */
  static List<Door> ofArtefacts(Path built, Path work) throws IOException {
    List<Door> all = new ArrayList<>();
    try (Stream<Path> folders = Files.list(built)) {
      for (Path folder : folders.sorted().toList()) {
        addArtefacts(all, folder, work.resolve(folder.getFileName()));
      }
    }
    List<Door> once = List.copyOf(all);
    for (int i = 0; i < MORE_OF_ARTEFACTS; i++) {
      all.addAll(once);
    }
    Path file = work.resolve("audited.elf");
    byte[] whole = Files.readAllBytes(built.resolve("avr").resolve("program.elf"));
    Reader audit = bytes -> command(file, bytes, "audit", "-t", TARGET);
    all.add(new Door("avr program.elf, audited", List.of(whole), BINARY, audit));
    return all;
  }

  private static void addTexts(List<Door> all, Path work) throws IOException {
    List<byte[]> loops = samples("generated-samples", ".yaml");
    List<byte[]> traces =
        samples("generated-samples", "trace.csv").stream().map(Door::beginning).toList();
    all.add(new Door("loop", loops, YAML, bytes -> LoopReader.read("loop.yaml", bytes)));
    Path loop = work.resolve("loop.yaml");
    all.add(
        new Door(
            "loop, planned", loops, YAML, bytes -> command(loop, bytes, "budget", "-t", TARGET)));
    all.add(new Door("trace", traces, CSV, Door::trace));
    Path trace = work.resolve("trace.csv");
    all.add(new Door("trace, played", traces, CSV, bytes -> command(trace, bytes, "replay", OWN)));
    List<byte[]> manifests = samples("generated-samples", "ullage.json");
    byte[] baseline =
        "# ullage baseline 1: sizes\ncompiler\ta compiler\nstack\t38\n(linker)\tmain\tcode\t12\t-\nsrc/a.o\tf\tcode\t7\tab12\nsrc/a.o\tz\tbss\t2\t-\n"
            .getBytes(StandardCharsets.UTF_8);
    Path kept = work.resolve("ullage.baseline");
    all.add(
        new Door(
            "baseline", List.of(baseline), BASELINE, bytes -> Baseline.read(put(kept, bytes))));
    all.add(
        new Door("manifest", manifests, JSON, bytes -> ManifestReader.read("ullage.json", bytes)));
  }

  private static void trace(byte[] bytes) {
    String text = SourceText.decode("trace.csv", bytes, bytes.length);
    Trace.read("trace.csv", text, OWN_LOOP, TraceOptions.NONE);
  }

  /** The rest of a trace is more of the same. */
  private static byte[] beginning(byte[] trace) {
    String text = new String(trace, StandardCharsets.UTF_8);
    String lines = text.lines().limit(100).collect(Collectors.joining("\n", "", "\n"));
    return lines.getBytes(StandardCharsets.UTF_8);
  }

  /** A whole command: whatever is in the file, it is no mistake of the tool. */
  private static void command(Path file, byte[] bytes, String... arguments) throws IOException {
    Files.write(file, bytes);
    List<String> all = new ArrayList<>(List.of(arguments));
    all.add(file.toString());
    Run run = Run.of(all.toArray(String[]::new));
    if (run.err().contains("mistake in ullage")) {
      throw new IllegalStateException(run.err());
    }
  }

  private static void addCatalogue(List<Door> all, Path work) throws IOException {
    Path targets = Path.of("targets");
    for (String family : List.of("avr-tinyx5", "stm32f0", "gd32vf103", "stm32c0-rest")) {
      Path folder = Files.createDirectories(work.resolve(family));
      Files.writeString(folder.resolve("index.txt"), family + ".yaml\n");
      Files.copy(targets.resolve("cores.yaml"), folder.resolve("cores.yaml"));
      byte[] whole = Files.readAllBytes(targets.resolve(family + ".yaml"));
      Path file = folder.resolve(family + ".yaml");
      all.add(new Door(family, List.of(whole), CATALOGUE, bytes -> catalogue(folder, file, bytes)));
    }
    Path folder = Files.createDirectories(work.resolve("cores"));
    Files.writeString(folder.resolve("index.txt"), "avr-tinyx5.yaml\n");
    Files.copy(targets.resolve("avr-tinyx5.yaml"), folder.resolve("avr-tinyx5.yaml"));
    byte[] whole = Files.readAllBytes(targets.resolve("cores.yaml"));
    Path file = folder.resolve("cores.yaml");
    all.add(new Door("cores", List.of(whole), CATALOGUE, bytes -> catalogue(folder, file, bytes)));
  }

  private static void catalogue(Path folder, Path file, byte[] bytes) throws IOException {
    Files.write(file, bytes);
    Catalogue.load(folder);
  }

  private static void addCosts(List<Door> all) throws IOException {
    Target avr = Catalogue.load().target(TARGET).orElseThrow();
    Target arm = Catalogue.load().target("stm32f030f4").orElseThrow();
    Map<String, Target> files = new LinkedHashMap<>();
    files.put("avr-tinyx5.avr25.tsv", avr);
    files.put("helpers.avr25.tsv", avr);
    files.put("start-up.avr.tsv", avr);
    files.put("stm32f0.cortex-m0.tsv", arm);
    files.put("helpers.cortex-m0.tsv", arm);
    for (Map.Entry<String, Target> each : files.entrySet()) {
      String file = each.getKey();
      byte[] whole = Files.readAllBytes(Path.of("targets", "costs", file));
      Map<String, String> tables = tables(each.getValue());
      all.add(
          new Door(
              file, List.of(whole), COSTS, bytes -> costs(file, bytes, tables, each.getValue())));
    }
  }

  private static Map<String, String> tables(Target target) throws IOException {
    Map<String, String> tables = new TreeMap<>();
    for (String file :
        List.of(
            target.codeClass() + ".tsv",
            target.family().name() + "." + target.codeClass() + ".tsv",
            "helpers." + target.codeClass() + ".tsv",
            "start-up." + target.toolchain().tools().replaceFirst("-$", "") + ".tsv")) {
      Path path = Path.of("targets", "costs", file);
      tables.put(file, Files.readString(path, StandardCharsets.ISO_8859_1));
    }
    return tables;
  }

  /** Kept for another calibration, and used for an estimate. */
  private static void costs(String file, byte[] bytes, Map<String, String> sound, Target target) {
    Map<String, String> tables = new TreeMap<>(sound);
    tables.put(file, new String(bytes, StandardCharsets.ISO_8859_1));
    Plan plan = Plan.of(OWN_LOOP, target);
    Firmware firmware = ((Plan.Possible) plan).firmware();
    CostWriter writer = new CostWriter("a compiler", List.of());
    writer.keep(file, tables.get(file), key -> true);
    writer.files();
    try {
      new Sizing(CostTables.of(tables)).estimate(target, firmware.modules(), firmware.buffers());
    } catch (IllegalStateException e) {
      // Rows that call what is nowhere, or each other without end: documented, and a bug in ours.
      if (!e.getMessage().matches("The (cost tables of .* lack|modules have no bound on).*")) {
        throw e;
      }
    }
  }

  private static void addArtefacts(List<Door> all, Path built, Path work) throws IOException {
    Files.createDirectories(work);
    String tools = built.getFileName().toString();
    List<Path> files;
    try (Stream<Path> list = Files.list(built)) {
      files = list.sorted().toList();
    }
    for (Path file : files) {
      String name = file.getFileName().toString();
      byte[] whole = Files.readAllBytes(file);
      String ending = name.substring(name.lastIndexOf('.') + 1);
      Reader reader =
          switch (ending) {
            case "o" -> bytes -> ObjectFile.read(name, bytes);
            case "elf" -> bytes -> program(work.resolve("other.elf"), bytes);
            default -> bytes -> beside(built, work, file, bytes);
          };
      List<String> words =
          switch (ending) {
            case "o", "elf" -> BINARY;
            case "hex" -> HEX;
            case "mem" -> SDCC;
            case "map" -> joined(TOOLS, SDCC.toArray(String[]::new));
            default -> TOOLS;
          };
      all.add(new Door(tools + " " + name, List.of(whole), words, reader));
    }
  }

  private static Path put(Path file, byte[] bytes) throws IOException {
    return Files.write(file, bytes);
  }

  /** A program is measured in two ways: as calibration does, and as an audit does. */
  private static void program(Path file, byte[] bytes) throws IOException {
    Baseline.of(Artefacts.read(put(file, bytes), Optional.empty())).text();
    LinkedProgram.read("program.elf", bytes);
  }

  /** What lies beside a sound program, or stands for one. */
  private static void beside(Path built, Path work, Path file, byte[] bytes) throws IOException {
    Path damaged = put(work.resolve(file.getFileName()), bytes);
    Path program = work.resolve("program.elf");
    Path sound = built.resolve("program.elf");
    try {
      if (Files.exists(sound)) {
        Files.copy(sound, program);
      }
      Artefacts.read(Files.exists(sound) ? program : damaged, Optional.empty());
    } finally {
      Files.deleteIfExists(program);
      Files.delete(damaged);
    }
  }

  private static List<byte[]> samples(String folder, String ending) throws IOException {
    try (Stream<Path> files = Files.walk(Path.of(folder))) {
      List<byte[]> samples = new ArrayList<>();
      for (Path file : files.filter(each -> each.toString().endsWith(ending)).sorted().toList()) {
        samples.add(Files.readAllBytes(file));
      }
      return samples;
    }
  }
}
