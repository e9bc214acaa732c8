package dev.ullage.proof;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs.Active;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.target.Pin;
import dev.ullage.target.Target;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Stream;

/** A simulated board, in C around a simulator of the part's core, that firmware is run on. */
final class SimulatedBoard {
  private static final Path SOURCES = Path.of("src/test/c");
  private static final Path FAMILIES = SOURCES.resolve("board32/families.txt");
  private static final List<String> FLAGS =
      List.of("-std=gnu99", "-O2", "-Wall", "-Wextra", "-Werror");

  // How long a sensor may take to move the data line, UM10204 "data valid time": Standard-mode and
  // Fast-mode. The simulated one always takes that long.
  private static final String SLOW_VALID_NS = "3450";
  private static final String FAST_VALID_NS = "900";

  /** What the core is simulated by. */
  enum Simulator {
    /** AVR parts, as simavr knows them; see {@code board.c}. */
    SIMAVR("board", "/usr/include/simavr/sim_avr.h", "libsimavr-dev", "-lsimavr", "-lelf"),
    /** 32-bit parts, their peripherals modelled from the manuals; see {@code board32/board.c}. */
    UNICORN("board32", "/usr/include/unicorn/unicorn.h", "libunicorn-dev", "-lunicorn");

    private final String folder;
    private final Path header;
    private final String packageName;
    private final List<String> libraries;

    Simulator(String folder, String header, String packageName, String... libraries) {
      this.folder = folder;
      this.header = Path.of(header);
      this.packageName = packageName;
      this.libraries = List.of(libraries);
    }
  }

  private final Path folder;
  private final Simulator simulator;
  private final Path program;
  private final Map<Object, Path> built = new ConcurrentHashMap<>();

  /** A board for AVR parts. */
  SimulatedBoard(Path folder) {
    this(folder, Simulator.SIMAVR);
  }

  /** Builds the board; leaves the test out where the simulator or a compiler is missing. */
  SimulatedBoard(Path folder, Simulator simulator) {
    Tool.require("cc");
    Tool.requireFile(simulator.header, simulator.packageName);
    if (simulator == Simulator.SIMAVR) {
      Tool.require("avr-gcc", "simavr");
    } else {
      Tool.require("arm-none-eabi-gcc", "riscv64-unknown-elf-gcc");
    }
    this.folder = folder;
    this.simulator = simulator;
    this.program = folder.resolve(simulator.folder);
    List<String> command = new ArrayList<>(List.of("cc"));
    command.addAll(FLAGS);
    Path common = SOURCES.resolve("bench").toAbsolutePath();
    command.add("-I" + common);
    sources(common).forEach(source -> command.add(source.toString()));
    sources(SOURCES.resolve(simulator.folder).toAbsolutePath())
        .forEach(source -> command.add(source.toString()));
    command.addAll(List.of("-o", program.toString()));
    command.addAll(simulator.libraries);
    Tool.output(folder, command.toArray(String[]::new));
  }

  /** What was built, and what it did. */
  record Result(LinkedProgram linked, Seen seen) {}

  /** Builds firmware and plays a script to it. Safe from several threads. */
  Result play(Firmware firmware, Script script) {
    return play(firmware, Map.of(), script);
  }

  /**
   * The same with files of the firmware replaced.
   *
   * @param instead text by the file's path in the emitted folder
   */
  Result play(Firmware firmware, Map<String, String> instead, Script script) {
    try {
      Path elf = build(firmware, instead);
      List<String> wires = wiring(firmware);
      Seen seen = run(elf, firmware.target(), firmware.clock().hz(), wires, script);
      return new Result(LinkedProgram.read(elf), seen);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Firmware that was built once is not built again. */
  private Path build(Firmware firmware, Map<String, String> instead) {
    return built.computeIfAbsent(
        List.of(firmware, instead),
        unused -> {
          try {
            Path build = Files.createTempDirectory(folder, "firmware");
            return FirmwareBuild.build(firmware, instead, build);
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
  }

  private Seen run(Path elf, Target target, long clockHz, List<String> wires, Script script)
      throws IOException {
    return simulator == Simulator.SIMAVR
        ? run(elf, target.name(), clockHz, wires, script)
        : run(elf, target.name(), target.flashBytes(), target.ramBytes(), wires, script);
  }

  /**
   * Runs a program that is already built, for an AVR.
   *
   * @param wires as {@code board.c} wants them: {@code sda=B1}
   */
  Seen run(Path elf, String part, long clockHz, List<String> wires, Script script)
      throws IOException {
    return run(List.of(elf.toString(), part, String.valueOf(clockHz)), wires, script);
  }

  /** The same for a 32-bit part, whose clock is what the program makes it. */
  Seen run(Path elf, String part, int flash, int ram, List<String> wires, Script script)
      throws IOException {
    String families = FAMILIES.toAbsolutePath().toString();
    return run(
        List.of(elf.toString(), families, part, String.valueOf(flash), String.valueOf(ram)),
        wires,
        script);
  }

  private Seen run(List<String> what, List<String> wires, Script script) throws IOException {
    Path lines = Files.write(Files.createTempFile(folder, "script", ".txt"), script.lines());
    List<String> command = new ArrayList<>(List.of(program.toString()));
    command.addAll(what);
    command.addAll(wires);
    command.add(lines.toString());
    return Seen.of(Tool.output(folder, command.toArray(String[]::new)));
  }

  private List<String> wiring(Firmware firmware) {
    Loop loop = firmware.loop();
    List<String> wires = new ArrayList<>();
    for (Map.Entry<Role, Pin> each : firmware.pins().entrySet()) {
      Pin pin = each.getValue();
      String name = name(pin);
      switch (each.getKey()) {
        case SDA -> wires.add("sda=" + name);
        case SCL -> wires.add("scl=" + name);
        case LAMP -> wires.add("lamp=" + mark(loop.outputs().lamp().get().active()) + name);
        case RELAY -> wires.add("relay=" + mark(loop.outputs().relay().get().active()) + name);
        case SOUNDER -> wires.add("sounder=" + name);
        case MUTE -> wires.add("mute=" + name);
        case TRANSMIT -> wires.add("transmit=" + name);
        case KNOB -> wires.add("knob=" + knob(pin));
      }
    }
    boolean programSends = firmware.serial().filter(s -> s.hardware().isEmpty()).isPresent();
    if (programSends) {
      wires.add("bit=" + 1_000_000_000 / loop.extras().report().orElseThrow().baud());
    }
    boolean standard = loop.sensor().speedHz() <= 100_000;
    wires.add("valid=" + (standard ? SLOW_VALID_NS : FAST_VALID_NS));
    wires.add("address=" + loop.sensor().address());
    wires.add("gap=" + gapMs(firmware));
    return wires;
  }

  /** simavr wants the converter's channel. */
  private String knob(Pin pin) {
    return simulator == Simulator.SIMAVR
        ? String.valueOf(pin.converterChannel().getAsInt())
        : name(pin);
  }

  /** The port's letter and the number; the whole name where there is one port. */
  private static String name(Pin pin) {
    return pin.port() == ' ' ? pin.name() : "" + pin.port() + pin.bit();
  }

  private static String mark(Active active) {
    return active == Active.LOW ? "!" : "";
  }

  /** A pause this long ends a reading: longer than the wait between the ask and the read. */
  private static int gapMs(Firmware firmware) {
    boolean apart = !firmware.loop().sensor().ask().isEmpty();
    double longestMs = firmware.loop().sensor().waitMs() + 3 * firmware.pace().exactTickMs() + 1;
    return apart && firmware.loop().sensor().waitMs() > 0 ? (int) longestMs : 2;
  }

  private static List<Path> sources(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().endsWith(".c")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
