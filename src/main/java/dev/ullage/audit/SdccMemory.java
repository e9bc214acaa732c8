package dev.ullage.audit;

import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The {@code .mem} file that sdcc writes for the 8051: a picture of the internal RAM, a letter for
 * each byte, and a table of the other memories.
 */
final class SdccMemory {
  private static final Pattern ROW = Pattern.compile("^0x[0-9a-f]{2}:((?:\\|.){16})\\|$");
  private static final Pattern OTHER =
      Pattern.compile(
          "^ +(\\S.*?\\S) +(?:0x[0-9a-f]{1,8} +0x[0-9a-f]{1,8} +)?([0-9]{1,9}) +([0-9]{1,9}) *$");
  private static final Pattern ROOM = Pattern.compile("with ([0-9]{1,6}) bytes available");

  /** Who a byte of internal RAM belongs to, in the order of the legend. */
  private static String owner(char letter) {
    if (letter >= '0' && letter <= '3') {
      return "(register banks)";
    }
    return switch (letter) {
      case 'T' -> "(bit registers)";
      case 'B' -> "(bits)";
      case 'Q' -> "(overlay)";
      case 'I' -> "(indirect data)";
      case 'A' -> "(absolute)";
      default -> "(data)";
    };
  }

  private SdccMemory() {}

  /** Whether the text looks like one. */
  static boolean isOne(TextFile file) {
    return file.contains("Internal RAM layout:");
  }

  /**
   * @param map what the linker's map says, for the names, where there is one
   * @throws dev.ullage.input.InputException where it is no such file
   */
  static Measured read(TextFile file, Optional<Measured> map) {
    Map<String, Integer> owners = new java.util.TreeMap<>();
    Map<String, int[]> others = new java.util.HashMap<>();
    int[] room = {-1};
    file.lines().forEach(line -> readLine(line, owners, others, room));
    int[] flash = others.get("ROM/EPROM/FLASH");
    if (owners.isEmpty() || flash == null) {
      throw file.wrong(0, "something else", "a `.mem` file of sdcc for the 8051");
    }
    int external =
        others.getOrDefault("EXTERNAL RAM", new int[2])[0]
            + others.getOrDefault("PAGED EXT. RAM", new int[2])[0];
    List<Piece> pieces = new ArrayList<>();
    owners.forEach((name, bytes) -> pieces.add(new Piece(name, "", Kind.BSS, bytes, "")));
    add(pieces, "(external RAM)", Kind.BSS, external);
    int named = addNames(pieces, map, flash[0]);
    add(pieces, "(other code)", Kind.CODE, flash[0] - named);
    return measured(file, pieces, flash[1], room[0]);
  }

  private static void readLine(
      String line, Map<String, Integer> owners, Map<String, int[]> others, int[] room) {
    Matcher row = ROW.matcher(line);
    if (row.find()) {
      for (char letter : row.group(1).replace("|", "").toCharArray()) {
        if (letter != ' ' && letter != 'S') {
          owners.merge(owner(letter), 1, Integer::sum);
        }
      }
    }
    Matcher other = OTHER.matcher(line);
    if (other.find()) {
      int size = Integer.parseInt(other.group(2));
      others.put(other.group(1), new int[] {size, Integer.parseInt(other.group(3))});
    }
    Matcher free = ROOM.matcher(line);
    if (free.find()) {
      room[0] = Integer.parseInt(free.group(1));
    }
  }

  /** Names in flash, as far as they fit into what the table says; answers their bytes. */
  private static int addNames(List<Piece> pieces, Optional<Measured> map, int flash) {
    List<Piece> names =
        map.map(Measured::pieces).orElse(List.of()).stream()
            .filter(each -> each.kind() == Kind.CODE || each.kind() == Kind.RODATA)
            .toList();
    int bytes = names.stream().mapToInt(Piece::bytes).sum();
    if (bytes > flash) {
      return 0;
    }
    pieces.addAll(names);
    return bytes;
  }

  private static void add(List<Piece> pieces, String name, Kind kind, int bytes) {
    if (bytes > 0) {
      pieces.add(new Piece(name, "", kind, bytes, ""));
    }
  }

  private static Measured measured(TextFile file, List<Piece> pieces, int flash, int room) {
    Figures figures =
        new Figures(
            0,
            Figures.sum(pieces, Kind.CODE),
            Figures.sum(pieces, Kind.RODATA),
            0,
            Figures.sum(pieces, Kind.BSS),
            0,
            0,
            true);
    int ram = room < 0 ? 0 : room + figures.staticRam();
    return new Measured(
        file.name(),
        Optional.empty(),
        Optional.of("sdcc"),
        figures,
        Stack.unknown("sdcc leaves no file that says what functions put on the stack"),
        pieces,
        Heap.in(pieces),
        Map.of(),
        new Capacity(
            OptionalInt.of(flash),
            ram == 0 ? OptionalInt.empty() : OptionalInt.of(ram),
            OptionalInt.empty()),
        List.of());
  }
}
