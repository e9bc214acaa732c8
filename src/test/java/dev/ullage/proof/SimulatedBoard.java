package dev.ullage.proof;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.target.Pin;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** A simulated board, in C on libsimavr, that firmware is run on; see {@code board.c}. */
final class SimulatedBoard {
  private static final Path SOURCES = Path.of("src/test/c/board");
  private static final Path HEADER = Path.of("/usr/include/simavr/sim_avr.h");
  private static final List<String> FLAGS =
      List.of("-std=gnu99", "-O2", "-Wall", "-Wextra", "-Werror");

  // How long a sensor may take to move the data line, UM10204 "data valid time": Standard-mode and
  // Fast-mode. The simulated one always takes that long.
  private static final String SLOW_VALID_NS = "3450";
  private static final String FAST_VALID_NS = "900";

  private final Path folder;
  private final Path program;

  /** Builds the board; leaves the test out where the simulator or a compiler is missing. */
  SimulatedBoard(Path folder) {
    Tool.require("avr-gcc", "cc", "simavr");
    Tool.requireFile(HEADER, "libsimavr-dev");
    this.folder = folder;
    this.program = folder.resolve("board");
    List<String> command = new ArrayList<>(List.of("cc"));
    command.addAll(FLAGS);
    sources().forEach(source -> command.add(source.toAbsolutePath().toString()));
    command.addAll(List.of("-o", program.toString(), "-lsimavr", "-lelf"));
    Tool.output(folder, command.toArray(String[]::new));
  }

  /** What was built, and what it did. */
  record Result(LinkedProgram linked, Seen seen) {}

  /**
   * Builds firmware and plays a script to it.
   *
   * @param stretchNs how long the sensor holds the clock after each byte that it takes
   */
  Result play(Firmware firmware, int stretchNs, List<String> script) {
    try {
      Path build = Files.createTempDirectory(folder, "firmware");
      Path elf = FirmwareBuild.build(firmware, build);
      Path lines = Files.write(build.resolve("script.txt"), script);
      List<String> command =
          new ArrayList<>(
              List.of(
                  program.toString(),
                  elf.toString(),
                  firmware.target().name(),
                  String.valueOf(firmware.clock().hz())));
      command.addAll(wiring(firmware));
      command.add("stretch=" + stretchNs);
      command.add(lines.toString());
      return new Result(
          LinkedProgram.read(elf), Seen.of(Tool.output(build, command.toArray(String[]::new))));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static List<String> wiring(Firmware firmware) {
    List<String> wires = new ArrayList<>();
    for (Map.Entry<Role, Pin> each : firmware.pins().entrySet()) {
      Pin pin = each.getValue();
      switch (each.getKey()) {
        case SDA -> wires.add("sda=" + pin.port() + pin.bit());
        case SCL -> wires.add("scl=" + pin.port() + pin.bit());
        case LAMP -> wires.add("lamp=" + pin.port() + pin.bit());
        case SOUNDER -> wires.add("sounder=" + pin.port() + pin.bit());
        case KNOB -> wires.add("knob=" + pin.converterChannel().getAsInt());
        default -> throw new IllegalArgumentException("no wire for " + each.getKey());
      }
    }
    boolean standard = firmware.loop().sensor().speedHz() <= 100_000;
    wires.add("valid=" + (standard ? SLOW_VALID_NS : FAST_VALID_NS));
    wires.add("address=" + firmware.loop().sensor().address());
    return wires;
  }

  private static List<Path> sources() {
    try (Stream<Path> files = Files.list(SOURCES)) {
      return files.filter(file -> file.toString().endsWith(".c")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
