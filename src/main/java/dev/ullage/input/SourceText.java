package dev.ullage.input;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Locale;

/** Turns the bytes of a file into text that a reader can trust: short, UTF-8, printable. */
public final class SourceText {
  /** Far more than any file of ours needs, and little enough to never be slow. */
  public static final int MAX_BYTES = 64 * 1024;

  private SourceText() {}

  /**
   * The bytes of a file, one more than the limit at most.
   *
   * @throws InputException if it cannot be read
   */
  public static byte[] bytesOf(Path file) {
    return bytesOf(file, MAX_BYTES);
  }

  /**
   * The bytes of a file, one more than {@code most} at most.
   *
   * @throws InputException if it cannot be read
   */
  public static byte[] bytesOf(Path file, int most) {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(most + 1);
    } catch (NoSuchFileException e) {
      throw unreadable(file, "not there");
    } catch (IOException e) {
      throw unreadable(file, Files.isDirectory(file) ? "a folder" : "closed to us");
    }
  }

  private static InputException unreadable(Path file, String found) {
    Findings findings = new Findings(file.toString());
    findings.add(0, 0, "", found, "readable");
    return new InputException(findings.sorted());
  }

  /**
   * Decodes strictly, and drops a byte order mark.
   *
   * @throws InputException if the bytes are too many, or not UTF-8
   */
  public static String decode(String file, byte[] bytes) {
    return decode(file, bytes, MAX_BYTES);
  }

  /**
   * The same for a file that may be longer.
   *
   * @throws InputException if the bytes are more than {@code most}, or not UTF-8
   */
  public static String decode(String file, byte[] bytes, int most) {
    CharsetDecoder utf8 = StandardCharsets.UTF_8.newDecoder();
    ByteBuffer in = ByteBuffer.wrap(bytes, 0, Math.min(bytes.length, most));
    CharBuffer out = CharBuffer.allocate(bytes.length);
    CoderResult result = utf8.decode(in, out, bytes.length <= most);
    String text = out.flip().toString();
    Findings findings = new Findings(file);
    if (result.isError()) {
      findings.add(
          lineAt(text, text.length()),
          columnAt(text, text.length()),
          "",
          "broken by the byte " + hex(bytes[in.position()]),
          "UTF-8 text",
          "save it as UTF-8 in your editor");
    } else if (bytes.length > most) {
      findings.add(0, 0, "", "longer", "at most " + most + " bytes");
    }
    findings.throwIfAny();
    return text.startsWith("\ufeff") ? text.substring(1) : text;
  }

  private static String hex(byte value) {
    return "0x" + Integer.toHexString(value & 0xFF).toUpperCase(Locale.ROOT);
  }

  /** The line, from 1, of a position in a text. */
  static int lineAt(String text, int position) {
    int line = 1;
    for (int i = 0; i < position; i++) {
      if (text.charAt(i) == '\n') {
        line++;
      }
    }
    return line;
  }

  /** The column, from 1 and in characters, of a position in a text. */
  static int columnAt(String text, int position) {
    int start = text.lastIndexOf('\n', position - 1) + 1;
    return text.codePointCount(start, position) + 1;
  }
}
