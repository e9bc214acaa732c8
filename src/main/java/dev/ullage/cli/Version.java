package dev.ullage.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import picocli.CommandLine.IVersionProvider;

/** The version that the build wrote down. */
final class Version implements IVersionProvider {

  static String text() {
    try (InputStream file = Version.class.getResourceAsStream("version.txt")) {
      byte[] bytes = Objects.requireNonNull(file, "version.txt").readAllBytes();
      return new String(bytes, StandardCharsets.UTF_8).strip();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public String[] getVersion() {
    return new String[] {"ullage " + text()};
  }
}
