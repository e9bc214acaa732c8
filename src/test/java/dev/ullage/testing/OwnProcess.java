package dev.ullage.testing;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** A Java process with the classes of this test run, for what needs a process of its own. */
public final class OwnProcess {
  private OwnProcess() {}

  /** What a process left. */
  public record Outcome(int exit, byte[] out, String err) {}

  /**
   * A command line.
   *
   * @param options of the virtual machine
   * @param type the class with the {@code main}
   */
  public static List<String> command(List<String> options, String type, String... arguments) {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"));
    command.addAll(options);
    command.addAll(List.of("-cp", classPath(), type));
    command.addAll(List.of(arguments));
    return command;
  }

  /** With whole paths: the process may start in another folder. */
  private static String classPath() {
    List<String> all = new ArrayList<>();
    for (String each : System.getProperty("java.class.path").split(File.pathSeparator)) {
      all.add(Path.of(each).toAbsolutePath().toString());
    }
    return String.join(File.pathSeparator, all);
  }

  /** Runs the whole tool to its end. */
  public static Outcome tool(
      List<String> options, Map<String, String> environment, String... arguments) {
    return run(new ProcessBuilder(command(options, "dev.ullage.cli.Main", arguments)), environment);
  }

  /** Runs a class of this test run to its end. */
  public static Outcome of(List<String> options, String type, String... arguments) {
    return run(new ProcessBuilder(command(options, type, arguments)), Map.of());
  }

  private static Outcome run(ProcessBuilder builder, Map<String, String> environment) {
    try {
      Path out = Files.createTempFile("process", ".out");
      Path err = Files.createTempFile("process", ".err");
      builder.environment().putAll(environment);
      Process process = builder.redirectOutput(out.toFile()).redirectError(err.toFile()).start();
      process.getOutputStream().close();
      int exit = process.waitFor();
      Outcome outcome =
          new Outcome(exit, Files.readAllBytes(out), Files.readString(err, StandardCharsets.UTF_8));
      Files.delete(out);
      Files.delete(err);
      return outcome;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
