package dev.ullage.fuzz;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Random;

/**
 * Damages a valid file a little, as a bad cable, a bad editor or a bad neighbour would. The same
 * seed gives the same damage.
 */
final class Mutation {
  /** Where arithmetic ends: of bytes, of 16, 32 and 64 bits, and of decimal numbers. */
  private static final List<String> NUMBERS =
      List.of(
          "0",
          "-1",
          "00",
          "127",
          "128",
          "255",
          "256",
          "32768",
          "65536",
          "2147483647",
          "2147483648",
          "4294967295",
          "4294967296",
          "9223372036854775807",
          "9223372036854775808",
          "-9223372036854775808",
          "99999999999999999999999999999999",
          "0x7FFFFFFF",
          "0xFFFFFFFF",
          "0xFFFFFFFFFFFFFFFF",
          "1e9",
          "1e-9",
          "1e999999999",
          "-1e999999999",
          "0.0000000000000000000000000001",
          "NaN",
          "Infinity");

  private static final long[] EDGES = {
    0, 1, -1, 0x7F, 0x80, 0xFF, 0x7FFF, 0x8000, 0xFFFF, 0x7FFF_FFFFL, 0x8000_0000L, 0xFFFF_FFF0L
  };

  private static final int MOST_CHANGES = 6;
  private static final int LONGEST_PIECE = 200;
  private static final int LARGEST = 1 << 20;

  private final Random random;
  private final List<String> words;
  private final byte[] other;

  /**
   * @param words of the format, to put in
   * @param other a valid file, to take pieces from
   */
  Mutation(long seed, List<String> words, byte[] other) {
    this.random = new Random(seed);
    this.words = words;
    this.other = other;
  }

  /** A damaged copy. */
  byte[] of(byte[] whole) {
    byte[] bytes = whole.clone();
    // Most often a single one: what is damaged all over is refused at the door.
    for (int i = random.nextInt(2) * random.nextInt(MOST_CHANGES); i >= 0; i--) {
      bytes = changed(bytes);
    }
    return bytes.length > LARGEST ? Arrays.copyOf(bytes, LARGEST) : bytes;
  }

  private byte[] changed(byte[] bytes) {
    if (bytes.length < 2) {
      return other.clone();
    }
    int at = place(bytes);
    int end = Math.min(bytes.length, at + 1 + random.nextInt(LONGEST_PIECE));
    // Where places are counted in bytes, nothing is found again behind a piece that moved.
    boolean inPlace = bytes[0] == 0x7F && random.nextInt(4) > 0;
    return switch (random.nextInt(inPlace ? 2 : 12)) {
      case 0 -> flipped(bytes, at);
      case 1 -> edge(bytes, at);
      case 2 -> joined(bytes, at, new byte[0], end); // a cut in the middle
      case 3 -> random.nextInt(4) > 0 ? bytes : Arrays.copyOf(bytes, at); // a cut of the end
      case 4 -> joined(bytes, at, repeated(Arrays.copyOfRange(bytes, at, end)), end);
      case 5 -> swapped(bytes, at, end);
      case 6 -> joined(bytes, at, word(), at);
      case 7 -> joined(bytes, at, word(), Math.min(bytes.length, at + 1 + random.nextInt(20)));
      case 8 -> lineTwice(bytes, at);
      case 9 -> joined(bytes, at, piece(other), end);
      default -> otherNumber(bytes, at);
    };
  }

  /** Anywhere, but half of the time near the beginning, where formats say what follows. */
  private int place(byte[] bytes) {
    return random.nextInt(random.nextBoolean() ? Math.min(bytes.length, 400) : bytes.length);
  }

  private byte[] flipped(byte[] bytes, int at) {
    bytes[at] ^= (byte) (1 << random.nextInt(8));
    return bytes;
  }

  private byte[] edge(byte[] bytes, int at) {
    long value = EDGES[random.nextInt(EDGES.length)];
    for (int i = 0; i < 1 << random.nextInt(3) && at + i < bytes.length; i++) {
      bytes[at + i] = (byte) (value >> 8 * i);
    }
    return bytes;
  }

  /** Now and then so often that it becomes large. */
  private byte[] repeated(byte[] piece) {
    int times = random.nextInt(20) == 0 ? 1000 : 2 + random.nextInt(8);
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    for (int i = 0; i < times; i++) {
      all.writeBytes(piece);
    }
    return all.toByteArray();
  }

  private byte[] swapped(byte[] bytes, int at, int end) {
    int length = end - at;
    int from = random.nextInt(bytes.length - length + 1);
    byte[] piece = Arrays.copyOfRange(bytes, at, end);
    System.arraycopy(bytes, from, bytes, at, length);
    System.arraycopy(piece, 0, bytes, from, length);
    return bytes;
  }

  private byte[] lineTwice(byte[] bytes, int at) {
    int start = at;
    while (start > 0 && bytes[start - 1] != '\n') {
      start--;
    }
    int end = at;
    while (end < bytes.length && bytes[end] != '\n') {
      end++;
    }
    byte[] line = Arrays.copyOfRange(bytes, start, Math.min(bytes.length, end + 1));
    return joined(bytes, start, line, start);
  }

  /** The next decimal number, if one is near; or else a word. */
  private byte[] otherNumber(byte[] bytes, int at) {
    int start = at;
    while (start < bytes.length && !isDigit(bytes[start])) {
      start++;
    }
    int end = start;
    while (end < bytes.length && isDigit(bytes[end])) {
      end++;
    }
    String number = NUMBERS.get(random.nextInt(NUMBERS.size()));
    return joined(bytes, start, number.getBytes(StandardCharsets.UTF_8), end);
  }

  private static boolean isDigit(byte b) {
    return b >= '0' && b <= '9';
  }

  private byte[] word() {
    return words.get(random.nextInt(words.size())).getBytes(StandardCharsets.UTF_8);
  }

  private byte[] piece(byte[] from) {
    int at = random.nextInt(from.length);
    return Arrays.copyOfRange(
        from, at, Math.min(from.length, at + 1 + random.nextInt(LONGEST_PIECE)));
  }

  /** The bytes before a place, a piece, and the bytes from another place on. */
  private static byte[] joined(byte[] bytes, int before, byte[] piece, int after) {
    byte[] all = Arrays.copyOf(bytes, before + piece.length + bytes.length - after);
    System.arraycopy(piece, 0, all, before, piece.length);
    System.arraycopy(bytes, after, all, before + piece.length, bytes.length - after);
    return all;
  }
}
