package dev.ullage.testing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Compilers and simulators that tests hold the tool against. Where one is missing the test is left
 * out and says so; with {@code -Dullage.toolchains=required} it fails.
 */
public final class Toolchain {
  /** How emitted firmware is compiled; the size of everything depends on it. */
  public static final List<String> FLAGS =
      List.of(
          "-Os",
          "-std=c99",
          "-ffunction-sections",
          "-fdata-sections",
          "-fno-common",
          "-ffreestanding",
          "-fno-jump-tables",
          "-fno-tree-switch-conversion");

  private static final long PATIENCE_SECONDS = 120;

  private Toolchain() {}

  /** Leaves the test out unless the AVR compiler is here. */
  public static void avr() {
    require("avr-gcc");
  }

  /** Leaves the test out unless this program is here. */
  public static void require(String program) {
    String path = System.getenv().getOrDefault("PATH", "");
    boolean here =
        Arrays.stream(path.split(File.pathSeparator))
            .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
    if (!here && "required".equals(System.getProperty("ullage.toolchains"))) {
      fail("`" + program + "` is required here but not installed.");
    }
    assumeTrue(here, "`" + program + "` is not installed; this test is left out.");
  }

  /**
   * Runs a program to its end and returns what it printed.
   *
   * @throws AssertionError if it fails or does not end
   */
  public static String run(List<String> command, Path folder) {
    try {
      Path output = Files.createTempFile(folder, "output", ".txt");
      Process process =
          new ProcessBuilder(command)
              .directory(folder.toFile())
              .redirectErrorStream(true)
              .redirectOutput(output.toFile())
              .start();
      if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        fail(command + " did not end.");
      }
      String text = Files.readString(output, StandardCharsets.ISO_8859_1);
      assertEquals(0, process.exitValue(), command + "\n" + text);
      return text;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
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
