package dev.ullage.sizing;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * All cost tables in one piece: for each its name, its length and its text. The build packs it into
 * the jar, for a survey asks for nearly all of them, and to open dozens of entries takes longer
 * than to read one.
 */
final class CostImage {
  private final byte[] bytes;
  private final Map<String, Integer> starts = new HashMap<>();

  CostImage(byte[] bytes) {
    this.bytes = bytes;
    ByteBuffer image = ByteBuffer.wrap(bytes);
    while (image.hasRemaining()) {
      int length = image.getShort();
      String name = text(image.position(), length);
      starts.put(name, image.position() + length);
      image.position(image.position() + length);
      image.position(image.position() + Integer.BYTES + image.getInt(image.position()));
    }
  }

  /** The text of a table. */
  Optional<String> file(String name) {
    Integer start = starts.get(name);
    if (start == null) {
      return Optional.empty();
    }
    int length = ByteBuffer.wrap(bytes).getInt(start);
    return Optional.of(text(start + Integer.BYTES, length));
  }

  private String text(int start, int length) {
    return new String(bytes, start, length, StandardCharsets.ISO_8859_1);
  }

  /**
   * Makes one file of a folder of tables.
   *
   * @param args the folder and the file
   */
  public static void main(String[] args) throws IOException {
    Files.write(Path.of(args[1]), of(Path.of(args[0])));
  }

  static byte[] of(Path folder) throws IOException {
    ByteArrayOutputStream image = new ByteArrayOutputStream();
    DataOutputStream out = new DataOutputStream(image);
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.sorted().toList()) {
        byte[] name = file.getFileName().toString().getBytes(StandardCharsets.ISO_8859_1);
        byte[] text = Files.readAllBytes(file);
        out.writeShort(name.length);
        out.write(name);
        out.writeInt(text.length);
        out.write(text);
      }
    }
    return image.toByteArray();
  }
}
