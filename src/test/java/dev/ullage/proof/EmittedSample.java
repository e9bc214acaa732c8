package dev.ullage.proof;

import dev.ullage.target.Catalogue;
import dev.ullage.target.Core;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;

/** A folder of firmware in {@code generated-samples}, which GoldenTest keeps as it is emitted. */
record EmittedSample(Path root) {
  private static final Path SAMPLES = Path.of("generated-samples");

  static List<EmittedSample> all() {
    try (Stream<Path> files = Files.walk(SAMPLES, 3)) {
      return files
          .filter(file -> file.endsWith("ullage.json"))
          .map(file -> new EmittedSample(file.getParent()))
          .sorted((one, other) -> one.root.compareTo(other.root))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The part that it was emitted for. */
  String part() {
    return root.getFileName().toString();
  }

  /** The compiler of that part, with the flags that tell it the core. */
  List<String> compiler() {
    Core core = core();
    List<String> command = new ArrayList<>(List.of(core.compiler()));
    command.addAll(core.flagsFor(part()));
    return command;
  }

  /** What that compiler defines for the core, and the emitted C asks for. */
  String definition() {
    return switch (core().tools()) {
      case "avr-" -> "-D__AVR__";
      case "arm-none-eabi-" -> "-D__thumb__";
      default -> "-D__riscv";
    };
  }

  private Core core() {
    return Catalogue.load().target(part()).orElseThrow().toolchain();
  }

  /** Paths below the root, of files in these folders that end so. */
  List<String> files(String end, String... folders) {
    List<String> found = new ArrayList<>();
    for (String folder : folders) {
      try (Stream<Path> files = Files.list(root.resolve(folder))) {
        files
            .filter(file -> file.toString().endsWith(end))
            .map(file -> root.relativize(file).toString())
            .sorted()
            .forEach(found::add);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return found;
  }

  String text(String file) {
    try {
      return Files.readString(root.resolve(file));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Runs a program in the folder, with these files last; it has to succeed. */
  String run(List<String> command, List<String> files) {
    List<String> all = new ArrayList<>(command);
    all.addAll(files);
    return Tool.output(root, all.toArray(String[]::new));
  }

  static List<String> words(String command) {
    return Arrays.asList(command.split(" "));
  }

  @Override
  public String toString() {
    return SAMPLES.relativize(root).toString();
  }
}
