package dev.ullage.proof;

import dev.ullage.calibrate.CrossCompiler;
import dev.ullage.emit.BuildRules;
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
import java.util.Map;
import java.util.stream.Stream;

/** Builds the emitted C of a plan, with warnings as errors, and reads the linked program. */
final class FirmwareBuild {
  // The linker script's own limits are raised, so that what does not fit can be measured too.
  private static final List<String> ROOM =
      List.of(
          "-Wl,--defsym=__TEXT_REGION_LENGTH__=1M",
          "-Wl,--defsym=__DATA_REGION_LENGTH__=64K",
          "-Wl,-Map=firmware.map");
  private static final List<String> MAP = List.of("-Wl,-Map=firmware.map");

  private FirmwareBuild() {}

  /** What the linker made, and what it says of it. */
  record Linked(LinkedProgram program, LinkMap map) {}

  static Linked link(Firmware firmware) {
    try {
      Path folder = Files.createTempDirectory("ullage-build");
      try {
        LinkedProgram program = LinkedProgram.read(build(firmware, Map.of(), folder));
        return new Linked(program, LinkMap.parse(Files.readString(folder.resolve("firmware.map"))));
      } finally {
        delete(folder);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * Leaves everything in a folder, and answers where the program is.
   *
   * @param instead text that files have instead of what was emitted, by path
   */
  static Path build(Firmware firmware, Map<String, String> instead, Path folder)
      throws IOException {
    List<String> compile = new ArrayList<>(compiler(firmware));
    compile.addAll(CrossCompiler.WARNINGS);
    compile.add("-c");
    List<String> link = new ArrayList<>(compiler(firmware));
    List<EmittedFile> files = Sources.of(firmware);
    for (EmittedFile file : files) {
      Path path = folder.resolve(file.path());
      Files.createDirectories(path.getParent());
      Files.writeString(path, instead.getOrDefault(file.path(), file.text()));
      if (file.path().endsWith(".c")) {
        compile.add(file.path());
        link.add(LinkMap.objectOf(file.path()));
      }
    }
    link.addAll(firmware.target().core().startsWith("avr") ? ROOM : MAP);
    link.addAll(BuildRules.linkFlags(firmware.target(), files));
    link.addAll(firmware.target().toolchain().libraries());
    link.addAll(List.of("-o", "firmware.elf"));
    Toolchain.run(compile, folder);
    Toolchain.run(link, folder);
    return folder.resolve("firmware.elf");
  }

  private static List<String> compiler(Firmware firmware) {
    List<String> command =
        new ArrayList<>(List.of(firmware.target().toolchain().compiler(), "-pipe"));
    command.addAll(firmware.target().toolchain().flagsFor(firmware.target().name()));
    command.addAll(CrossCompiler.FLAGS);
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
