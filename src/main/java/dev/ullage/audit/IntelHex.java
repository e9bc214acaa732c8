package dev.ullage.audit;

import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A firmware image as text: Intel hexadecimal object file format, revision A, 1988. It says how
 * much flash is filled, and nothing of RAM.
 */
final class IntelHex {
  private static final int DATA = 0;
  private static final int END = 1;
  private static final int SEGMENT = 2;
  private static final int UPPER_HALF = 4;

  /** Bytes in a row, and the line they start on. */
  private record Range(long start, int bytes, int line) {
    long end() {
      return start + bytes;
    }
  }

  private final TextFile file;
  private final List<Range> ranges = new ArrayList<>();
  private long base;
  private boolean ended;
  private int line;

  private IntelHex(TextFile file) {
    this.file = file;
  }

  /**
   * @throws dev.ullage.input.InputException where a line is no record, a check byte is wrong, two
   *     records fill the same bytes, or the end is missing
   */
  static Measured read(TextFile file) {
    IntelHex hex = new IntelHex(file);
    file.lines().forEach(hex::readLine);
    if (!hex.ended) {
      throw file.wrong(0, "cut short", "a hex file with its end record");
    }
    return hex.measured();
  }

  private void readLine(String text) {
    line++;
    String record = text.strip();
    if (record.isEmpty()) {
      return;
    }
    if (ended) {
      throw file.wrong(line, "followed by more", "at its end after the end record");
    }
    if (record.charAt(0) != ':' || record.length() < 11 || record.length() % 2 == 0) {
      throw file.wrong(line, "something else", "a record such as `:00000001FF`");
    }
    int[] bytes = new int[(record.length() - 1) / 2];
    int sum = 0;
    for (int i = 0; i < bytes.length; i++) {
      bytes[i] = digit(record.charAt(2 * i + 1)) << 4 | digit(record.charAt(2 * i + 2));
      sum += bytes[i];
    }
    if (bytes[0] != bytes.length - 5) {
      throw file.wrong(
          line,
          (bytes.length - 5) + " bytes",
          "a record of the " + bytes[0] + " bytes it announces");
    }
    if ((sum & 0xFF) != 0) {
      throw file.wrong(line, "one whose check byte does not match", "an undamaged record");
    }
    accept(bytes);
  }

  private int digit(char c) {
    int digit = c < 0x80 ? Character.digit(c, 16) : -1;
    if (digit < 0) {
      throw file.wrong(line, "one with the character `" + c + '`', "hexadecimal digits");
    }
    return digit;
  }

  private void accept(int[] bytes) {
    switch (bytes[3]) {
      case DATA -> {
        if (bytes[0] > 0) {
          ranges.add(new Range(base + (bytes[1] << 8 | bytes[2]), bytes[0], line));
        }
      }
      case END -> ended = true;
      case SEGMENT -> base = upper(bytes) << 4;
      case UPPER_HALF -> base = upper(bytes) << 16;
      default -> {
        if (bytes[3] > 5) {
          throw file.wrong(line, "of type " + bytes[3], "a record of type 0 to 5");
        }
      }
    }
  }

  private long upper(int[] bytes) {
    if (bytes[0] != 2) {
      throw file.wrong(line, bytes[0] + " bytes", "an address of two bytes");
    }
    return bytes[4] << 8 | bytes[5];
  }

  private Measured measured() {
    List<Piece> pieces = new ArrayList<>();
    ranges.sort(Comparator.comparingLong(Range::start));
    for (int i = 0; i < ranges.size(); ) {
      long start = ranges.get(i).start();
      long end = ranges.get(i).end();
      for (i++; i < ranges.size() && ranges.get(i).start() <= end; i++) {
        if (ranges.get(i).start() < end) {
          throw file.wrong(ranges.get(i).line(), "filled already", "bytes that are filled once");
        }
        end = ranges.get(i).end();
      }
      String name = "(0x%04x to 0x%04x)".formatted(start, end - 1);
      pieces.add(new Piece(name, "", Kind.CODE, (int) (end - start), ""));
    }
    Figures figures = new Figures(0, Figures.sum(pieces, Kind.CODE), 0, 0, 0, 0, 0, false);
    return new Measured(
        file.name(),
        Optional.empty(),
        Optional.empty(),
        figures,
        Stack.unknown("a hex file says nothing of RAM and stack"),
        pieces,
        List.of(),
        Map.of(),
        Capacity.UNKNOWN,
        List.of("a hex file has no names: audit the ELF file, where there is one"));
  }
}
