package dev.ullage.proof;

import dev.ullage.calibrate.CrossCompiler;
import dev.ullage.emit.EmittedFile;
import dev.ullage.emit.Sources;
import dev.ullage.firmware.Firmware;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;

/** Builds the emitted C of a plan, with warnings as errors, and reads the linked program. */
final class FirmwareBuild {
  // The linker script's own limits are raised, so that what does not fit can be measured too.
  private static final List<String> ROOM =
      List.of(
          "-Wl,--gc-sections",
          "-Wl,--defsym=__TEXT_REGION_LENGTH__=1M",
          "-Wl,--defsym=__DATA_REGION_LENGTH__=64K");

  private FirmwareBuild() {}

  static LinkedProgram link(Firmware firmware) {
    try {
      Path folder = Files.createTempDirectory("ullage-build");
      try {
        return LinkedProgram.read(build(firmware, folder));
      } finally {
        delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Leaves everything in a folder, and answers where the program is. */
  static Path build(Firmware firmware, Path folder) throws IOException {
    Toolchain.run(command(firmware, folder), folder);
    return folder.resolve("firmware.elf");
  }

  private static List<String> command(Firmware firmware, Path folder) throws IOException {
    List<String> command =
        new ArrayList<>(List.of("avr-gcc", "-mmcu=" + firmware.target().name(), "-pipe"));
    command.addAll(CrossCompiler.FLAGS);
    command.addAll(CrossCompiler.WARNINGS);
    for (EmittedFile file : Sources.of(firmware)) {
      Path path = folder.resolve(file.path());
      Files.createDirectories(path.getParent());
      Files.writeString(path, file.text());
      if (file.path().endsWith(".c")) {
        command.add(file.path());
      }
    }
    command.addAll(ROOM);
    command.addAll(List.of("-o", "firmware.elf"));
    return command;
  }

  private static void delete(Path folder) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }
}
