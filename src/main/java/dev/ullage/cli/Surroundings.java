package dev.ullage.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.InputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
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
 */
record Surroundings(
    InputStream in,
    PrintWriter out,
    PrintWriter err,
    Map<String, String> environment,
    boolean terminal) {

  static Surroundings ofProcess() {
    return new Surroundings(
        System.in,
        writer(FileDescriptor.out),
        writer(FileDescriptor.err),
        System.getenv(),
        System.console() != null);
  }

  private static PrintWriter writer(FileDescriptor stream) {
    return new PrintWriter(
        new OutputStreamWriter(new FileOutputStream(stream), StandardCharsets.UTF_8));
  }

  void flush() {
    out.flush();
    err.flush();
  }
}
