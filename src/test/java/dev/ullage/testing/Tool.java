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
import java.util.Arrays;
import java.util.concurrent.TimeUnit;

/**
 * Runs programs of this machine, such as a compiler, and leaves a test out where one is missing.
 */
public final class Tool {
  private static final int LIMIT_SECONDS = 120;

  private Tool() {}

  /** Exit code, and everything that was printed. */
  public record Run(int exit, String output) {}

  /**
   * Skips the test where a program is missing; with {@code -Dullage.toolchains=required} fails it.
   */
  public static void require(String... programs) {
    for (String program : programs) {
      require(isThere(program), program);
    }
  }

  /** The same for a file that a package brings. */
  public static void requireFile(Path file, String packageName) {
    require(Files.exists(file), packageName);
  }

  private static void require(boolean there, String what) {
    String message = "`" + what + "` is not installed.";
    if (isRequired()) {
      if (!there) {
        fail(message);
      }
    } else {
      assumeTrue(there, message);
    }
  }

  /** Whether a missing tool is a failure. */
  static boolean isRequired() {
    return System.getProperty("ullage.toolchains", "optional").equals("required");
  }

  public static boolean isThere(String program) {
    return Arrays.stream(System.getenv("PATH").split(File.pathSeparator))
        .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
  }

  /** Runs a program in a folder to its end. */
  public static Run run(Path folder, String... command) {
    try {
      Path output = Files.createTempFile("tool", ".txt");
      Process process =
          new ProcessBuilder(command)
              .directory(folder.toFile())
              .redirectErrorStream(true)
              .redirectOutput(output.toFile())
              .start();
      if (!process.waitFor(LIMIT_SECONDS, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        fail("Took too long: " + String.join(" ", command));
      }
      String text = Files.readString(output, StandardCharsets.ISO_8859_1);
      Files.delete(output);
      return new Run(process.exitValue(), text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Runs a program that has to succeed, and answers what it printed. */
  public static String output(Path folder, String... command) {
    Run run = run(folder, command);
    assertEquals(0, run.exit(), () -> String.join(" ", command) + "\n" + run.output());
    return run.output();
  }
}
