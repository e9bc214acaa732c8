package dev.ullage.input;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** Finds the word that somebody most likely meant. */
public final class Nearest {
  private Nearest() {}

  /**
   * The known word with the fewest single-letter changes (a swap of neighbours counts as one), if
   * so few that it is likely meant: a third of its letters, and at least one.
   */
  public static Optional<String> to(String word, List<String> known) {
    String best = null;
    int fewest = Integer.MAX_VALUE;
    for (String candidate : known) {
      int changes = changes(word, candidate);
      if (changes < fewest) {
        fewest = changes;
        best = candidate;
      }
    }
    return best != null && fewest <= Math.max(1, best.length() / 3)
        ? Optional.of(best)
        : Optional.empty();
  }

  /** The nearest known words, nearest first, however far they are. */
  public static List<String> several(String word, List<String> known, int count) {
    return known.stream()
        .distinct()
        .sorted(
            Comparator.<String>comparingInt(candidate -> changes(word, candidate))
                .thenComparing(Comparator.naturalOrder()))
        .limit(count)
        .toList();
  }

  /** Insertions, deletions, substitutions and swaps of neighbours between two words. */
  static int changes(String a, String b) {
    if (Math.abs(a.length() - b.length()) > b.length()) {
      return Integer.MAX_VALUE;
    }
    int[] beforeLast = new int[b.length() + 1];
    int[] last = new int[b.length() + 1];
    int[] row = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      last[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      row[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int differ = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        row[j] = Math.min(Math.min(row[j - 1], last[j]) + 1, last[j - 1] + differ);
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          row[j] = Math.min(row[j], beforeLast[j - 2] + 1);
        }
      }
      int[] spare = beforeLast;
      beforeLast = last;
      last = row;
      row = spare;
    }
    return last[b.length()];
  }
}
