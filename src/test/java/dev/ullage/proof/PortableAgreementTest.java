package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.calibrate.CrossCompiler;
import dev.ullage.emit.EmittedFile;
import dev.ullage.emit.Sources;
import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Module;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Loops;
import dev.ullage.loop.Sensor;
import dev.ullage.measure.Archive;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.ObjectFile;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.CostWriter;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Core;
import dev.ullage.target.Family;
import dev.ullage.target.Target;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Programs for Cortex-M and RISC-V with a port that stands in for all: each module is measured
 * once, in the first program that has it, and the sum is held against the linker with our start-up
 * and linker script, in another order of files each time.
 */
class PortableAgreementTest {
  private static final long SEED = 20_260_301;
  private static final int PROGRAMS = Integer.getInteger("ullage.portable.programs", 6);

  /** A core with the flags for it. */
  enum Which {
    CORTEX_M0("cortex-m0", "thumb", "arm-none-eabi-", "-mcpu=cortex-m0 -mthumb"),
    CORTEX_M3("cortex-m3", "thumb", "arm-none-eabi-", "-mcpu=cortex-m3 -mthumb"),
    RV32EC("rv32ec", "riscv", "riscv64-unknown-elf-", "-march=rv32ec -mabi=ilp32e"),
    RV32IMAC("rv32imac", "riscv", "riscv64-unknown-elf-", "-march=rv32imac -mabi=ilp32");

    private final String core;
    private final String port;
    private final String tools;
    private final List<String> flags;

    Which(String core, String port, String tools, String flags) {
      this.core = core;
      this.port = port;
      this.tools = tools;
      this.flags = new ArrayList<>(List.of(flags.split(" ")));
      if (port.equals("riscv")) {
        this.flags.add("-msmall-data-limit=0");
      }
    }

    /** A part that there is not: plans are those of an AVR, code is for this core. */
    Target target(String port) {
      Target avr = Catalogue.load().target("atmega328p").orElseThrow();
      Family f = avr.family();
      Family family =
          new Family(
              f.name(),
              f.title(),
              List.of(port),
              f.pins(),
              f.timers(),
              f.converter(),
              f.serialPort(),
              f.busPort(),
              f.keeping(),
              f.watchdog(),
              f.sleep());
      return new Target(
          "stand-in",
          "Stand-in",
          family,
          new Core(
              core,
              tools,
              tools + "gcc",
              flags,
              List.of("-nostartfiles", "-nostdlib"),
              List.of(),
              List.of("-lgcc"),
              0,
              avr.toolchain().bitBang(),
              avr.toolchain().bitSerial()),
          32,
          0x08000000,
          0x10000,
          false,
          0x2000,
          0x20000000,
          0,
          40,
          4,
          avr.clock(),
          avr.packages(),
          Map.of());
    }
  }

  @TempDir Path folder;

  private CostWriter writer = new CostWriter("gcc", CrossCompiler.FLAGS);

  @ParameterizedTest
  @EnumSource(Which.class)
  void sumOfModules_isWhatTheLinkerMakes(Which which) throws IOException {
    Tool.require(which.tools + "gcc");
    Target target = which.target("avr");
    List<Firmware> programs =
        Loops.stream(SEED + which.ordinal() % 2 * 2)
            .flatMap(loop -> plan(loop, target).stream())
            .limit(PROGRAMS)
            .toList();
    List<LinkedProgram> linked = new ArrayList<>();
    for (Firmware each : programs) {
      linked.add(build(which, each));
    }
    writer.addStartUp(target, empty(which, programs.get(0)));
    writer.addHelpers(which.core, helpers(which));
    Sizing sizing = new Sizing(CostTables.of(writer.files()));
    List<String> wrong = new ArrayList<>();
    for (int i = 0; i < programs.size(); i++) {
      Firmware each = programs.get(i);
      Estimate estimate = sizing.estimate(target, each.modules(), each.buffers());
      String expected = figures(linked.get(i));
      String found =
          "%d %d %d".formatted(estimate.flash().likely(), estimate.staticRam(), estimate.stack());
      if (!found.equals(expected) || linked.get(i).stack().unbounded().isPresent()) {
        wrong.add(expected + " but " + found + ": " + each.loop().name() + linked.get(i).stack());
      }
    }
    assertEquals(List.of(), wrong);
    assertTrue(linked.stream().anyMatch(each -> !each.stack().interrupt().isEmpty()), "handlers");
    assertTrue(linked.stream().anyMatch(each -> each.flashBytes() > 3000), "far jumps");
    if (Boolean.getBoolean("ullage.portable.print")) {
      System.out.println(
          which + " " + linked.stream().map(PortableAgreementTest::figures).toList());
    }
  }

  private static String figures(LinkedProgram program) {
    return "%d %d %d"
        .formatted(program.flashBytes(), program.staticRamBytes(), program.stack().bytes());
  }

  private static Optional<Firmware> plan(Loop loop, Target target) {
    return Plan.of(loop, target) instanceof Plan.Possible possible
        ? Optional.of(possible.firmware())
        : Optional.empty();
  }

  /** Measures what was not measured before, and links all. */
  private LinkedProgram build(Which which, Firmware firmware) throws IOException {
    Map<String, String> sources = StandInPort.sources(firmware);
    compile(which, sources, sources.keySet().stream().filter(f -> f.endsWith(".c")).toList());
    for (Module each : firmware.modules()) {
      String family = firmware.target().family().name();
      if (!writer.has(family, which.core, each)) {
        ObjectFile object = ObjectFile.read(object(Sources.path(each)));
        writer.add(family, which.core, each, object, oneMore(which, firmware, each));
      }
    }
    // Measuring left a file compiled with one more to ask.
    compile(which, sources, List.of("src/ask.c"));
    List<Path> objects =
        new ArrayList<>(firmware.modules().stream().map(Sources::path).map(this::object).toList());
    Collections.shuffle(objects, new Random(objects.size()));
    return link(which, firmware, objects);
  }

  private Map<String, ObjectFile> oneMore(Which which, Firmware firmware, Module module)
      throws IOException {
    if (module.counts().isEmpty()) {
      return Map.of();
    }
    Sensor s = firmware.loop().sensor();
    List<Integer> ask = IntStream.rangeClosed(0, s.ask().size()).boxed().toList();
    Sensor more =
        new Sensor(
            s.bus(),
            s.address(),
            s.speedHz(),
            ask,
            s.restart(),
            s.waitMs(),
            s.frozenAfter(),
            s.frame(),
            s.scale());
    Firmware longer = plan(firmware.loop().with(more), firmware.target()).orElseThrow();
    compile(which, StandInPort.sources(longer), List.of(Sources.path(module)));
    return Map.of(module.counts().firstKey(), ObjectFile.read(object(Sources.path(module))));
  }

  private Path object(String source) {
    return folder.resolve(source.substring(source.lastIndexOf('/') + 1).replace(".c", ".o"));
  }

  private void compile(Which which, Map<String, String> sources, List<String> files)
      throws IOException {
    for (Map.Entry<String, String> each : sources.entrySet()) {
      Path path = folder.resolve(each.getKey());
      Files.createDirectories(path.getParent());
      Files.writeString(path, each.getValue());
    }
    List<String> command = compiler(which);
    command.addAll(CrossCompiler.WARNINGS);
    command.add("-c");
    command.addAll(files);
    Tool.output(folder, command.toArray(String[]::new));
  }

  private LinkedProgram link(Which which, Firmware firmware, List<Path> objects)
      throws IOException {
    // The plan of another family says nothing of vectors; start-up and script come from the core's.
    Firmware support = plan(firmware.loop(), which.target(which.port)).orElseThrow();
    for (EmittedFile each : Sources.support(support)) {
      Path path = folder.resolve(each.path());
      Files.createDirectories(path.getParent());
      String handled =
          each.text().contains("isr_pace")
              ? each.text().replaceFirst("( |j )unexpected(,|\\\\n)", "$1isr_pace$2")
              : each.text();
      Files.writeString(path, handled);
    }
    List<String> command = compiler(which);
    command.addAll(CrossCompiler.WARNINGS);
    command.addAll(List.of("-nostartfiles", "-nostdlib", "-Wl,--gc-sections", "-Tport/link.ld"));
    command.add("port/start.c");
    objects.forEach(each -> command.add(each.toString()));
    command.addAll(List.of("-lgcc", "-o", "program.elf"));
    Tool.output(folder, command.toArray(String[]::new));
    return LinkedProgram.read(folder.resolve("program.elf"));
  }

  private LinkedProgram empty(Which which, Firmware firmware) throws IOException {
    compile(which, Map.of("empty.c", "int main(void) { for (;;) { } }\n"), List.of("empty.c"));
    return link(which, firmware, List.of(object("empty.c")));
  }

  private List<ObjectFile> helpers(Which which) throws IOException {
    List<String> command = compiler(which);
    command.add("-print-libgcc-file-name");
    return Archive.read(Path.of(Tool.output(folder, command.toArray(String[]::new)).strip()));
  }

  private static List<String> compiler(Which which) {
    List<String> command = new ArrayList<>(List.of(which.tools + "gcc", "-pipe"));
    command.addAll(which.flags);
    command.addAll(CrossCompiler.FLAGS);
    return command;
  }
}
