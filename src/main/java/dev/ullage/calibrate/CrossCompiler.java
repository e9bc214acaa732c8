package dev.ullage.calibrate;

import dev.ullage.emit.BuildRules;
import dev.ullage.measure.Archive;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.ObjectFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** The cross compiler that the cost tables are made with. */
public final class CrossCompiler {
  /** What emitted firmware is compiled with; the tables hold for these flags. */
  public static final List<String> FLAGS = BuildRules.FLAGS;

  /** Under these emitted firmware compiles without a warning. */
  public static final List<String> WARNINGS =
      List.of("-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Werror");

  private static final String COMMAND = "avr-gcc";
  private static final int PATIENCE_S = 120;

  /** Name and version in one line. */
  public String version() throws IOException {
    return run(Path.of("."), List.of(COMMAND, "--version")).lines().findFirst().orElse("unknown");
  }

  /** Whether it is on the path. */
  public boolean isInstalled() {
    try {
      version();
      return true;
    } catch (IOException e) {
      return false;
    }
  }

  /** Compiles one C file below a folder and reads the object file. */
  ObjectFile compile(String target, Path folder, String source) throws IOException {
    Path object = folder.resolve("object.o");
    run(folder, command(target, List.of("-c", source, "-o", object.toString())));
    return ObjectFile.read(source, Files.readAllBytes(object));
  }

  /** Links a program that does nothing: what is left is start-up. */
  LinkedProgram empty(String target, Path folder) throws IOException {
    Files.writeString(folder.resolve("empty.c"), "int main(void) { for (;;) { } }\n");
    Path program = folder.resolve("empty.elf");
    run(folder, command(target, List.of("empty.c", "-Wl,--gc-sections", "-o", program.toString())));
    return LinkedProgram.read(program);
  }

  /** The run-time helpers that this target's programs are linked with. */
  List<ObjectFile> helpers(String target) throws IOException {
    String path =
        run(Path.of("."), List.of(COMMAND, "-mmcu=" + target, "-print-libgcc-file-name")).strip();
    return Archive.read(Path.of(path));
  }

  private static List<String> command(String target, List<String> rest) {
    List<String> command = new ArrayList<>(List.of(COMMAND, "-mmcu=" + target));
    command.addAll(FLAGS);
    command.addAll(WARNINGS);
    command.addAll(rest);
    return command;
  }

  private static String run(Path folder, List<String> command) throws IOException {
    Process process =
        new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    try {
      if (!process.waitFor(PATIENCE_S, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        throw new IOException("`" + String.join(" ", command) + "` did not end.");
      }
    } catch (InterruptedException e) {
      process.destroyForcibly();
      Thread.currentThread().interrupt();
      throw new IOException("Interrupted.", e);
    }
    if (process.exitValue() != 0) {
      throw new IOException("`" + String.join(" ", command) + "` failed:\n" + output);
    }
    return output;
  }
}
