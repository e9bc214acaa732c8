package dev.ullage.measure;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * Tables of places that compilers make of a {@code switch}. None says how long it is, so a table is
 * read for as long as it makes sense.
 */
final class JumpTables {
  /** Helpers of libgcc (lib1funcs.S) that look their return address up in the table behind it. */
  private static final String HELPER = "__gnu_thumb1_case_";

  private static final int MOST_ENTRIES = 2048;

  private JumpTables() {}

  static boolean isHelper(Optional<String> routine) {
    return routine.filter(name -> name.startsWith(HELPER)).isPresent();
  }

  /** The table behind a call of such a helper. */
  static List<Integer> behind(CodeSection code, int routine, int at, Optional<String> helper) {
    String kind = helper.orElseThrow().substring(HELPER.length());
    return switch (kind) {
      case "uqi" -> halved(code, routine, at, 1, false);
      case "sqi" -> halved(code, routine, at, 1, true);
      case "uhi" -> halved(code, routine, at, 2, false);
      case "shi" -> halved(code, routine, at, 2, true);
      default -> words(code, routine, (at + 2) & ~3, (at + 2) & ~3);
    };
  }

  /** Distances in units of two bytes, from the table on, which ends where its first code starts. */
  static List<Integer> halved(
      CodeSection code, int routine, int table, int entryBytes, boolean signed) {
    List<Integer> places = new ArrayList<>();
    int end = table + MOST_ENTRIES * entryBytes;
    for (int at = table; at + entryBytes <= end; at += entryBytes) {
      OptionalInt distance = distance(code, at, entryBytes, signed);
      if (distance.isEmpty()) {
        break;
      }
      int place = table + 2 * distance.getAsInt();
      // The table may be filled up with a zero at its end.
      if (code.isInside(routine, place) && place != table) {
        places.add(place);
        end = place > table ? Math.min(end, place) : end;
      }
    }
    return places;
  }

  private static OptionalInt distance(CodeSection code, int at, int bytes, boolean signed) {
    OptionalInt low = code.octet(at);
    OptionalInt high = bytes == 1 ? low : code.octet(at + 1);
    if (low.isEmpty() || high.isEmpty()) {
      return OptionalInt.empty();
    }
    int value = bytes == 1 ? low.getAsInt() : low.getAsInt() | high.getAsInt() << 8;
    int unused = 32 - 8 * bytes;
    return OptionalInt.of(signed ? value << unused >> unused : value);
  }

  /** Addresses, or distances from {@code base}, which all lie in the same routine. */
  static List<Integer> words(CodeSection code, int routine, int table, int base) {
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < MOST_ENTRIES; i++) {
      OptionalInt word = code.constant(table + 4 * i);
      int place = word.isPresent() ? (word.getAsInt() + base) & ~1 : routine;
      if (!code.isInside(routine, place) || code.isData(place)) {
        break;
      }
      places.add(place);
    }
    return places;
  }
}
