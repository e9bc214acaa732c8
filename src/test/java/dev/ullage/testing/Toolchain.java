package dev.ullage.testing;

import dev.ullage.emit.BuildRules;
import dev.ullage.target.Target;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** The AVR compiler, run as the emitted Makefile runs it. */
public final class Toolchain {
  /** How emitted firmware is compiled; the size of everything depends on it. */
  public static final List<String> FLAGS = BuildRules.FLAGS;

  private Toolchain() {}

  /** Leaves the test out unless the AVR compiler is here. */
  public static void avr() {
    Tool.require("avr-gcc");
  }

  /**
   * The targets whose compiler is here. Leaves the test out where there is none, and fails it where
   * all are required and one is missing.
   */
  public static List<Target> buildable(List<Target> targets) {
    List<Target> able =
        targets.stream().filter(each -> Tool.isThere(each.toolchain().compiler())).toList();
    targets.stream()
        .filter(each -> able.isEmpty() || Tool.isRequired())
        .map(each -> each.toolchain().compiler())
        .distinct()
        .forEach(Tool::require);
    return able;
  }

  /** Runs a program that has to succeed, and answers what it printed. */
  public static String run(List<String> command, Path folder) {
    return Tool.output(folder, command.toArray(String[]::new));
  }

  /** Compiles C (or, with a name that ends in {@code .S}, assembly) to an object file. */
  public static Path compile(String part, String name, String source, Path folder) {
    try {
      Files.writeString(folder.resolve(name), source);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Path object = folder.resolve(name.substring(0, name.lastIndexOf('.')) + ".o");
    List<String> command = new ArrayList<>(List.of("avr-gcc", "-mmcu=" + part, "-fstack-usage"));
    command.addAll(FLAGS);
    command.addAll(List.of("-c", name, "-o", object.toString()));
    run(command, folder);
    return object;
  }

  /** Links object files of {@code folder} to a program. */
  public static Path link(String part, List<Path> objects, Path folder) {
    Path program = folder.resolve("program.elf");
    List<String> command =
        new ArrayList<>(List.of("avr-gcc", "-mmcu=" + part, "-Os", "-Wl,--gc-sections"));
    objects.forEach(object -> command.add(object.toString()));
    command.addAll(List.of("-o", program.toString()));
    run(command, folder);
    return program;
  }

  /** The run-time library that programs for a part are linked with. */
  public static Path avrHelpers(String part, Path folder) {
    String path =
        run(List.of("avr-gcc", "-mmcu=" + part, "-print-libgcc-file-name"), folder).strip();
    return Path.of(path);
  }
}
