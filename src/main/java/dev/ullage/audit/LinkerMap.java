package dev.ullage.audit;

import dev.ullage.input.InputException;
import java.util.Collections;
import java.util.HashMap;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;

/**
 * A linker map as GNU ld writes it: which object file each stretch of memory came from, who asked
 * for a member of a library, and how large the linker was told the memories are.
 */
final class LinkerMap {
  private static final String LAYOUT = "Linker script and memory map";
  private static final int MOST_STRETCHES = 500_000;

  /** The part of the map that a line is in. */
  private enum Part {
    OTHER,
    MEMBERS,
    MEMORIES,
    LAYOUT
  }

  /** Bytes in a row from one section of one object file. */
  record Stretch(long address, int size, String section, String object) {
    long end() {
      return address + size;
    }
  }

  private final TextFile file;

  /** By output section and address: tools' own sections all start at 0. */
  private final Map<String, TreeMap<Long, Stretch>> stretches = new HashMap<>();

  private final Map<String, String> askedBy = new HashMap<>();
  private final Map<String, long[]> memories = new HashMap<>();
  private Part part = Part.OTHER;
  private String pending = "";
  private String output = "";
  private int count;

  private LinkerMap(TextFile file) {
    this.file = file;
  }

  /** Whether the text looks like one. */
  static boolean isOne(TextFile file) {
    return file.contains(LAYOUT);
  }

  /**
   * @throws InputException where it is no map of GNU ld, or one without an end
   */
  static LinkerMap read(TextFile file) {
    if (!isOne(file)) {
      throw file.wrong(0, "something else", "a linker map of GNU ld");
    }
    LinkerMap map = new LinkerMap(file);
    file.lines().forEach(map::read);
    return map;
  }

  /** What went into a section of the program, by address. */
  TreeMap<Long, Stretch> stretches(String section) {
    return stretches.getOrDefault(section, new TreeMap<>());
  }

  /** For a member of a library, the object file that wanted it and the name that it wanted. */
  Map<String, String> askedBy() {
    return Collections.unmodifiableMap(askedBy);
  }

  /**
   * The memories by the usual names of linker scripts: {@code FLASH}, {@code ROM} or {@code text},
   * and {@code RAM} or {@code data}.
   */
  Capacity capacity() {
    return new Capacity(
        memory("flash", "rom", "text"), memory("ram", "sram", "data"), memory("eeprom"));
  }

  private OptionalInt memory(String... names) {
    for (String name : names) {
      long[] memory = memories.get(name);
      if (memory != null && memory[1] > 0 && memory[1] <= Integer.MAX_VALUE) {
        return OptionalInt.of((int) memory[1]);
      }
    }
    return OptionalInt.empty();
  }

  private void read(String line) {
    if (line.startsWith("Archive member included")) {
      part = Part.MEMBERS;
    } else if (line.startsWith("Memory Configuration")) {
      part = Part.MEMORIES;
    } else if (line.startsWith(LAYOUT)) {
      part = Part.LAYOUT;
    } else if (line.startsWith("Discarded input sections")
        || line.startsWith("Allocating common symbols")
        || line.startsWith("Cross Reference Table")) {
      part = Part.OTHER;
    } else {
      switch (part) {
        case MEMBERS -> readMember(line);
        case MEMORIES -> readMemory(line);
        case LAYOUT -> readStretch(line);
        default -> {}
      }
    }
  }

  /** {@code lib.a(member.o)}, then, on this line or the next, {@code object.o (symbol)}. */
  private void readMember(String line) {
    if (line.isBlank()) {
      return;
    }
    String asked = line.strip();
    if (!Character.isWhitespace(line.charAt(0))) {
      int end = line.indexOf(")");
      if (end < 0) {
        return;
      }
      pending = line.substring(0, end + 1);
      asked = line.substring(end + 1).strip();
    }
    int bracket = asked.lastIndexOf(" (");
    if (bracket > 0 && asked.endsWith(")") && !pending.isEmpty()) {
      String from = Piece.objectName(asked.substring(0, bracket));
      String name = asked.substring(bracket + 2, asked.length() - 1);
      askedBy.putIfAbsent(Piece.objectName(pending), from + " (" + name + ')');
      pending = "";
    }
  }

  private void readMemory(String line) {
    String[] words = line.strip().split("\\s+", 4);
    if (words.length >= 3) {
      long start = number(words[1]);
      long length = number(words[2]);
      if (start >= 0 && length >= 0) {
        memories.put(words[0].toLowerCase(java.util.Locale.ROOT), new long[] {start, length});
      }
    }
  }

  /** {@code " .text.main 0xca 0x12 main.o"}; a long name has a line of its own. */
  private void readStretch(String line) {
    boolean indented = line.startsWith(" ");
    if (!indented) {
      output = line.split("\\s", 2)[0];
      pending = "";
      return;
    }
    String[] words = line.strip().split("\\s+", 4);
    boolean named = line.length() > 1 && line.charAt(1) != ' ';
    if (named && words.length == 1) {
      pending = words[0];
    } else if (named && words.length == 4) {
      addStretch(words[0], words[1], words[2], words[3]);
      pending = "";
    } else if (!named && words.length >= 3 && !pending.isEmpty()) {
      String[] rest = line.strip().split("\\s+", 3);
      addStretch(pending, rest[0], rest[1], rest[2]);
      pending = "";
    } else {
      pending = "";
    }
  }

  private void addStretch(String section, String address, String size, String object) {
    long start = number(address);
    long length = number(size);
    boolean counts = section.startsWith(".") || section.equals("COMMON");
    if (counts && start >= 0 && length > 0 && length <= Integer.MAX_VALUE) {
      if (++count > MOST_STRETCHES) {
        throw file.wrong(0, "longer", "one of at most " + MOST_STRETCHES + " input sections");
      }
      stretches
          .computeIfAbsent(output, any -> new TreeMap<>())
          .put(start, new Stretch(start, (int) length, section, Piece.objectName(object)));
    }
  }

  /** A number in hexadecimal digits after {@code 0x}; -1 for anything else. */
  private static long number(String word) {
    boolean hex = word.startsWith("0x") && word.length() > 2 && word.length() <= 18;
    for (int i = 2; hex && i < word.length(); i++) {
      hex = Character.digit(word.charAt(i), 16) >= 0;
    }
    return hex ? Long.parseUnsignedLong(word.substring(2), 16) : -1;
  }
}
