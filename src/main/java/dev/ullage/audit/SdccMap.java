package dev.ullage.audit;

import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The map that sdcc's linker writes: areas with their sizes, and in them the global names with
 * their modules. A name reaches to the next one.
 */
final class SdccMap {
  private static final Pattern AREA =
      Pattern.compile(
          "^(\\S+) +([0-9A-F]{4,8}) +([0-9A-F]{4,8}) += +[0-9]+\\. bytes \\(([A-Z,]*)\\)");
  private static final Pattern NAME =
      Pattern.compile("^(?:[A-Z]:)? +([0-9A-F]{4,8})  (\\S+)(?: +(\\S+))?\\s*$");

  /** Areas that the linker fills with code or constants, where it does not say so itself. */
  private static final Set<String> FLASH =
      Set.of("HOME", "GSINIT", "GSFINAL", "CODE", "CONST", "INITIALIZER", "CSEG", "XINIT", "CABS");

  private static final Set<String> CONSTANTS = Set.of("CONST", "XINIT");
  private static final String INITIAL_VALUES = "INITIALIZER";
  private static final String INITIALISED = "INITIALIZED";
  private static final Set<String> STACK = Set.of("SSEG");
  private static final int MOST_BYTES = 16 << 20;

  /** A name in an area. */
  private record Entry(String name, String module) {}

  /** An area and what is in it, by address. */
  private record Area(
      String name, int start, int size, String attributes, TreeMap<Integer, Entry> entries) {
    boolean isFlash() {
      return attributes.contains("CODE") || FLASH.contains(name) || name.startsWith("GSINIT");
    }
  }

  private final Map<String, Area> areas = new LinkedHashMap<>();
  private Optional<Area> current = Optional.empty();

  private SdccMap() {}

  /** Whether the text looks like one. */
  static boolean isOne(TextFile file) {
    return file.contains("ASxxxx Linker");
  }

  /**
   * @throws dev.ullage.input.InputException where there is no area in it
   */
  static Measured read(TextFile file) {
    SdccMap map = new SdccMap();
    int[] number = {0};
    file.lines().forEach(line -> map.readLine(file, ++number[0], line));
    if (!isOne(file) || map.areas.isEmpty()) {
      throw file.wrong(0, "something else", "a linker map of sdcc");
    }
    return map.measured(file.name());
  }

  private void readLine(TextFile file, int number, String line) {
    Matcher area = AREA.matcher(line);
    if (area.find()) {
      long size = Long.parseLong(area.group(3), 16);
      long start = Long.parseLong(area.group(2), 16);
      if (size > MOST_BYTES || start > Integer.MAX_VALUE - MOST_BYTES) {
        throw file.wrong(number, size + " bytes at " + start, "an area of a small part");
      }
      Area found = new Area(area.group(1), (int) start, (int) size, area.group(4), new TreeMap<>());
      // An area that is longer than a page has its title on each.
      current = Optional.of(areas.computeIfAbsent(found.name(), any -> found));
      return;
    }
    Matcher name = NAME.matcher(line);
    if (current.isPresent() && name.find()) {
      long at = Long.parseLong(name.group(1), 16);
      Area in = current.get();
      if (at >= in.start() && at < (long) in.start() + in.size()) {
        String module = name.group(3) == null ? "" : name.group(3);
        in.entries().putIfAbsent((int) at, new Entry(name.group(2), module));
      }
    }
  }

  private Measured measured(String file) {
    List<Piece> pieces = new ArrayList<>();
    for (Area area : areas.values()) {
      if (area.size() > 0 && !STACK.contains(area.name()) && !area.name().startsWith(".")) {
        add(pieces, area);
      }
    }
    return new Measured(
        file,
        Optional.empty(),
        Optional.of("sdcc"),
        figures(pieces),
        Stack.unknown("sdcc leaves no file that says what functions put on the stack"),
        pieces,
        Heap.in(pieces),
        Map.of(),
        Capacity.UNKNOWN,
        List.of());
  }

  private static Figures figures(List<Piece> pieces) {
    return new Figures(
        0,
        Figures.sum(pieces, Kind.CODE),
        Figures.sum(pieces, Kind.RODATA),
        Figures.sum(pieces, Kind.DATA),
        Figures.sum(pieces, Kind.BSS),
        0,
        0,
        true);
  }

  private void add(List<Piece> pieces, Area area) {
    boolean image = area.name().equals(INITIAL_VALUES) && areas.containsKey(INITIALISED);
    if (image) {
      return; // counted where the variables are
    }
    Kind kind = kind(area);
    int from = area.start();
    Entry entry = new Entry("(" + area.name() + ")", "");
    for (Map.Entry<Integer, Entry> each : area.entries().entrySet()) {
      addPiece(pieces, entry, kind, each.getKey() - from);
      from = each.getKey();
      entry = each.getValue();
    }
    addPiece(pieces, entry, kind, area.start() + area.size() - from);
  }

  private static void addPiece(List<Piece> pieces, Entry entry, Kind kind, int bytes) {
    if (bytes > 0) {
      String object = entry.module().isEmpty() ? "" : entry.module() + ".rel";
      pieces.add(new Piece(entry.name(), object, kind, bytes, ""));
    }
  }

  private Kind kind(Area area) {
    if (area.isFlash()) {
      return CONSTANTS.contains(area.name()) ? Kind.RODATA : Kind.CODE;
    }
    boolean hasImage = area.name().equals(INITIALISED) && areas.containsKey(INITIAL_VALUES);
    return hasImage ? Kind.DATA : Kind.BSS;
  }
}
