package dev.ullage.measure;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
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

  private final byte[] bytes;
  private final int base;
  private final String name;
  private final TreeMap<Integer, String> entries;
  private final Map<Integer, Integer> ends;
  private final Map<Integer, Goal> filledIn = new HashMap<>();
  private final Set<Integer> madeUp = new TreeSet<>();
  private final Patience patience;

  /**
   * @param base address of the first byte
   * @param name for places before the first routine
   * @param entries where routines start
   * @param ends for routines of which the end is certain, by their start
   * @param patience shared by all sections of a file
   */
  CodeSection(
      byte[] bytes,
      int base,
      String name,
      Map<Integer, String> entries,
      Map<Integer, Integer> ends,
      Patience patience) {
    this.bytes = bytes;
    this.base = base;
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

  boolean holds(int offset) {
    return offset >= 0 && offset + 1 < bytes.length;
  }

  AvrInstruction at(int offset) {
    return AvrInstruction.decode(word(offset), holds(offset + 2) ? word(offset + 2) : 0);
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

  Goal goal(int offset, AvrInstruction instruction) {
    Goal linked = filledIn.get(offset);
    if (linked != null) {
      return linked;
    }
    boolean absolute =
        instruction.operation() == AvrInstruction.Operation.JUMP_ABSOLUTE
            || instruction.operation() == AvrInstruction.Operation.CALL_ABSOLUTE;
    int target =
        absolute ? instruction.value() - base : offset + instruction.length() + instruction.value();
    return target + base == 0 && entries.containsKey(target) && isVectorTable(target)
        ? new Goal.Restart()
        : new Goal.Inside(target);
  }

  private boolean isVectorTable(int offset) {
    return "__vectors".equals(entries.get(offset));
  }

  private int word(int offset) {
    return bytes[offset] & 0xFF | (bytes[offset + 1] & 0xFF) << 8;
  }
}
