package dev.ullage.calibrate;

import dev.ullage.emit.BuildRules;
import dev.ullage.emit.EmittedFile;
import dev.ullage.measure.Archive;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.ObjectFile;
import dev.ullage.target.Core;
import dev.ullage.target.Target;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/** A cross compiler that cost tables are made with. */
public final class CrossCompiler {
  /** What emitted firmware is compiled with; the tables hold for these flags. */
  public static final List<String> FLAGS = BuildRules.FLAGS;

  /** Under these emitted firmware compiles without a warning. */
  public static final List<String> WARNINGS =
      List.of("-Wall", "-Wextra", "-Wpedantic", "-Wconversion", "-Wshadow", "-Werror");

  private static final int PATIENCE_S = 120;

  private final String command;

  /**
   * @param core any of those that it compiles for
   */
  public CrossCompiler(Core core) {
    this.command = core.compiler();
  }

  /** Its command. */
  public String command() {
    return command;
  }

  /** Name and version in one line. */
  public String version() throws IOException {
    return run(Path.of("."), List.of(command, "--version")).lines().findFirst().orElse("unknown");
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
  ObjectFile compile(Target target, Path folder, String source) throws IOException {
    Path object = folder.resolve("object.o");
    run(folder, compiling(target, List.of("-c", source, "-o", object.toString())));
    return ObjectFile.read(source, Files.readAllBytes(object));
  }

  /**
   * Links a program that does nothing: what is left is start-up.
   *
   * @param support what the port brings for it
   */
  LinkedProgram empty(Target target, Path folder, List<EmittedFile> support) throws IOException {
    Files.writeString(folder.resolve("empty.c"), "int main(void) { for (;;) { } }\n");
    List<String> rest = new ArrayList<>(List.of("empty.c"));
    for (EmittedFile file : support) {
      Path path = folder.resolve(file.path());
      Files.createDirectories(path.getParent());
      Files.writeString(path, file.text());
      if (file.path().endsWith(".c") || file.path().endsWith(".S")) {
        rest.add(file.path());
      }
    }
    Path program = folder.resolve("empty.elf");
    rest.addAll(BuildRules.linkFlags(target, support));
    rest.addAll(target.toolchain().libraries());
    rest.addAll(List.of("-o", program.toString()));
    run(folder, compiling(target, rest));
    return LinkedProgram.read(program);
  }

  /** The run-time helpers that this target's programs are linked with. */
  List<ObjectFile> helpers(Target target) throws IOException {
    List<String> ask = new ArrayList<>(List.of(command));
    ask.addAll(target.toolchain().flagsFor(target.name()));
    ask.add("-print-libgcc-file-name");
    return Archive.read(Path.of(run(Path.of("."), ask).strip()));
  }

  private List<String> compiling(Target target, List<String> rest) {
    List<String> all = new ArrayList<>(List.of(command));
    all.addAll(target.toolchain().flagsFor(target.name()));
    all.addAll(FLAGS);
    all.addAll(WARNINGS);
    all.addAll(rest);
    return all;
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
