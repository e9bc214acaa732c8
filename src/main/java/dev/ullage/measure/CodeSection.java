package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Contents;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Instructions that lie one after another, with the places where routines start, and with what the
 * linker will fill in. Offsets count from the first byte.
 */
final class CodeSection {

  /** Where a jump or a call goes. */
  sealed interface Goal {
    /** To this offset of the same section. */
    record Inside(int offset) implements Goal {}

    /** To a symbol elsewhere. */
    record Outside(String name) implements Goal {}

    /** To the reset vector: the program starts over, so the stack does too. */
    record Restart() implements Goal {}
  }

  private record Part(int routine, int end) {}

  private final TreeMap<Integer, Contents> stretches;
  private final String name;
  private final TreeMap<Integer, String> entries;
  private final Map<Integer, Integer> ends;
  private final Map<Integer, Goal> filledIn = new HashMap<>();
  private final TreeMap<Integer, Contents> constants = new TreeMap<>();
  private final TreeMap<Integer, Boolean> data = new TreeMap<>();
  private final TreeMap<Integer, Part> parts = new TreeMap<>();
  private final Set<Integer> madeUp = new TreeSet<>();
  private final Set<Integer> endless = new TreeSet<>();
  private final Patience patience;

  /**
   * @param stretches of code, by the offset of their first byte
   * @param name for places before the first routine
   * @param entries where routines start
   * @param ends for routines of which the end is certain, by their start
   * @param patience shared by all sections of a file
   */
  CodeSection(
      Map<Integer, Contents> stretches,
      String name,
      Map<Integer, String> entries,
      Map<Integer, Integer> ends,
      Patience patience) {
    this.stretches = new TreeMap<>(stretches);
    this.name = name;
    this.entries = new TreeMap<>(entries);
    this.ends = ends;
    this.patience = patience;
  }

  /** Tells where the jump or call at an offset goes once it is linked. */
  void fillIn(int offset, Goal goal) {
    filledIn.put(offset, goal);
  }

  /** Counts a step of a walk; false once there were too many over all walks. */
  boolean spendStep() {
    return patience.spend();
  }

  /** Whether an instruction can start here: code lies here, and nobody said that it is data. */
  boolean holds(int offset) {
    return stretch(stretches, offset, 2) && !isData(offset);
  }

  /** Two bytes of code, the lower first. */
  int half(int offset) {
    Map.Entry<Integer, Contents> stretch = stretches.floorEntry(offset);
    return stretch.getValue().half(offset - stretch.getKey());
  }

  /** The word that a program can read here and never changes: in code, or among constants. */
  OptionalInt constant(int offset) {
    for (TreeMap<Integer, Contents> each : List.of(stretches, constants)) {
      if (stretch(each, offset, 4)) {
        Map.Entry<Integer, Contents> in = each.floorEntry(offset);
        return OptionalInt.of(in.getValue().word(offset - in.getKey()));
      }
    }
    return OptionalInt.empty();
  }

  /** A byte of code, 0 to 255; empty outside it. */
  OptionalInt octet(int offset) {
    if (!stretch(stretches, offset, 1)) {
      return OptionalInt.empty();
    }
    Map.Entry<Integer, Contents> in = stretches.floorEntry(offset);
    return OptionalInt.of(in.getValue().at(offset - in.getKey()));
  }

  private static boolean stretch(TreeMap<Integer, Contents> in, int offset, int bytes) {
    Map.Entry<Integer, Contents> before = in.floorEntry(offset);
    return before != null && (long) offset - before.getKey() + bytes <= before.getValue().length();
  }

  /** Adds what can be read but not run. */
  void addConstants(int offset, Contents contents) {
    constants.put(offset, contents);
  }

  /** Tells that from here on, up to the next such mark, lies data or does not. */
  void mark(int offset, boolean isData) {
    data.put(offset, isData);
  }

  boolean isData(int offset) {
    Map.Entry<Integer, Boolean> mark = data.floorEntry(offset);
    return mark != null && mark.getValue();
  }

  /** Tells that the routine which starts here does not come back to its caller. */
  void markEndless(int routine) {
    endless.add(routine);
  }

  boolean neverReturns(int routine) {
    return endless.contains(routine);
  }

  /** Tells that a stretch of code is part of the routine that starts elsewhere. */
  void addPart(int routine, int from, int to) {
    parts.put(from, new Part(routine, to));
  }

  /** Whether a place is inside a routine, behind its first instruction. */
  boolean isInside(int routine, int offset) {
    Map.Entry<Integer, Part> part = parts.floorEntry(offset);
    if (part != null && offset < part.getValue().end()) {
      return part.getValue().routine() == routine;
    }
    Integer next = entries.higherKey(routine);
    int end = ends.getOrDefault(routine, next == null ? routine : next);
    return offset > routine && offset < end;
  }

  /** Where routines start. */
  Map<Integer, String> entries() {
    return entries;
  }

  Optional<String> entry(int offset) {
    return Optional.ofNullable(entries.get(offset));
  }

  /** The routine that starts here; makes one up where nothing is known to start. */
  String routine(int offset) {
    String known = entries.get(offset);
    if (known != null) {
      return known;
    }
    if (madeUp.add(offset)) {
      patience.spendRoutine();
    }
    return place(offset);
  }

  /** Places that were called since this was last asked, and that nothing is known to start at. */
  Set<Integer> madeUp() {
    Set<Integer> places = Set.copyOf(madeUp);
    madeUp.clear();
    return places;
  }

  /** The nearest routine before, and the distance from it: {@code main+0x1c}. */
  String place(int offset) {
    Map.Entry<Integer, String> nearest = entries.floorEntry(offset);
    return nearest == null
        ? placeIn(name, offset)
        : placeIn(nearest.getValue(), offset - nearest.getKey());
  }

  static String placeIn(String routine, int distance) {
    return distance == 0 ? routine : routine + "+0x" + Integer.toHexString(distance);
  }

  /** True where compiled code ends just before: what follows is not run into. */
  boolean isEnd(int offset) {
    Map.Entry<Integer, String> before = entries.lowerEntry(offset);
    return before != null && ends.getOrDefault(before.getKey(), -1) == offset;
  }

  /** Where the jump or call here goes, if the linker fills it in. */
  Optional<Goal> filledIn(int offset) {
    return Optional.ofNullable(filledIn.get(offset));
  }
}
