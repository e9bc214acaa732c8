package dev.ullage.audit;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.stream.Stream;

/** A file that some tool has left: read with a limit, and told about by line. */
final class TextFile {
  private static final int MOST_BYTES = 16 << 20;
  private static final int LONGEST_LINE = 4000;

  private final String name;
  private final String text;

  TextFile(String name, String text) {
    this.name = name;
    this.text = text;
  }

  /**
   * @throws InputException if it cannot be read, or is too large
   */
  static TextFile read(Path file) {
    return new TextFile(
        file.toString(), new String(bytes(file, MOST_BYTES), StandardCharsets.ISO_8859_1));
  }

  /** The bytes of a file that has at most so many. */
  static byte[] bytes(Path file, int most) {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(most + 1);
      if (bytes.length > most) {
        throw wrong(file.toString(), 0, "larger", "a file of at most " + most + " bytes");
      }
      return bytes;
    } catch (IOException e) {
      throw wrong(
          file.toString(), 0, Files.isDirectory(file) ? "a folder" : "unreadable", "readable");
    }
  }

  String name() {
    return name;
  }

  /** The lines; no tool writes longer ones than these are cut to. */
  Stream<String> lines() {
    return text.lines()
        .map(line -> line.length() > LONGEST_LINE ? line.substring(0, LONGEST_LINE) : line);
  }

  boolean contains(String words) {
    return text.contains(words);
  }

  InputException wrong(int line, String found, String expected) {
    return wrong(name, line, found, expected);
  }

  static InputException wrong(String file, int line, String found, String expected) {
    return new InputException(new Finding(file, line, 0, "", found, expected, Optional.empty()));
  }
}
