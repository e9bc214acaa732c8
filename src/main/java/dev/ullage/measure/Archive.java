package dev.ullage.measure;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A library of object files. Format: {@code ar(5)}, with the GNU way of writing long names. */
public final class Archive {
  private static final byte[] MAGIC = "!<arch>\n".getBytes(StandardCharsets.US_ASCII);
  private static final int HEADER_BYTES = 60;

  private Archive() {}

  /** A file inside an archive. */
  record Member(String name, byte[] bytes) {}

  /**
   * The object files of a library, in its order.
   *
   * @throws InputException where the file is no archive of object files, or a damaged one
   */
  public static List<ObjectFile> read(Path file) throws IOException {
    return members(String.valueOf(file.getFileName()), Files.readAllBytes(file)).stream()
        .map(member -> ObjectFile.read(member.name(), member.bytes()))
        .toList();
  }

  static List<Member> members(String file, byte[] bytes) {
    if (bytes.length < MAGIC.length || !startsWith(bytes, MAGIC)) {
      throw wrong(file, "something else", "an archive of object files");
    }
    List<Member> members = new ArrayList<>();
    String longNames = "";
    for (int at = MAGIC.length; at + HEADER_BYTES <= bytes.length; ) {
      int size = size(file, text(bytes, at + 48, 10));
      int start = at + HEADER_BYTES;
      if (size > bytes.length - start) {
        throw wrong(file, "a member that ends outside it", "an undamaged archive");
      }
      String name = text(bytes, at, 16);
      if (name.equals("//")) {
        longNames = text(bytes, start, size);
      } else if (!name.equals("/") && !name.equals("/SYM64/")) {
        members.add(
            new Member(
                name(name, longNames), java.util.Arrays.copyOfRange(bytes, start, start + size)));
      }
      at = start + size + size % 2;
    }
    return members;
  }

  private static String name(String field, String longNames) {
    if (!field.startsWith("/")) {
      return field.endsWith("/") ? field.substring(0, field.length() - 1) : field;
    }
    String digits = field.substring(1);
    if (!digits.matches("[0-9]{1,9}") || Integer.parseInt(digits) >= longNames.length()) {
      return field;
    }
    int start = Integer.parseInt(digits);
    int end = longNames.indexOf("/", start);
    return longNames.substring(start, end < 0 ? longNames.length() : end);
  }

  private static int size(String file, String field) {
    if (!field.matches("[0-9]{1,9}")) {
      throw wrong(file, "a member of `" + field + "` bytes", "an undamaged archive");
    }
    return Integer.parseInt(field);
  }

  private static boolean startsWith(byte[] bytes, byte[] start) {
    return java.util.Arrays.equals(bytes, 0, start.length, start, 0, start.length);
  }

  private static String text(byte[] bytes, int start, int length) {
    return new String(bytes, start, length, StandardCharsets.ISO_8859_1).strip();
  }

  private static InputException wrong(String file, String found, String expected) {
    return new InputException(new Finding(file, 0, 0, "", found, expected, Optional.empty()));
  }
}
