package dev.ullage.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;

/**
 * Everything that a run takes from the process around it, so that a test can give it something
 * else.
 *
 * @param in what is typed or piped in
 * @param out results, in UTF-8 whatever the locale
 * @param err everything else
 * @param environment variables by name
 * @param terminal whether a person is looking at {@code out}
 * @param watched whether a person is looking at {@code err}
 */
record Surroundings(
    InputStream in,
    PrintWriter out,
    PrintWriter err,
    Map<String, String> environment,
    boolean terminal,
    boolean watched) {

  /**
   * @param out where results go
   */
  static Surroundings ofProcess(OutputStream out) {
    return new Surroundings(
        System.in,
        writer(out),
        writer(new FileOutputStream(FileDescriptor.err)),
        System.getenv(),
        System.console() != null || isTerminal(Path.of("/proc/self/fd/1")),
        isTerminal(Path.of("/proc/self/fd/2")));
  }

  /** Where input is piped in there is no console, but there may be someone looking all the same. */
  private static boolean isTerminal(Path stream) {
    try {
      String device = Files.readSymbolicLink(stream).toString();
      return device.startsWith("/dev/pts/") || device.startsWith("/dev/tty");
    } catch (IOException | UnsupportedOperationException e) {
      return false;
    }
  }

  private static PrintWriter writer(OutputStream stream) {
    return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8));
  }

  void flush() {
    out.flush();
    err.flush();
  }
}
