package dev.ullage.replay;

import java.util.ArrayList;
import java.util.List;

/** Lengths of time for a person: the two largest units of it. */
public final class Span {
  private static final String[] UNITS = {"d", "h", "min", "s", "ms"};
  private static final long[] MS = {86_400_000, 3_600_000, 60_000, 1_000, 1};

  private Span() {}

  /** Such as {@code 3 min 20 s}; what is below the second unit is dropped. */
  public static String of(long ms) {
    List<String> parts = new ArrayList<>();
    long rest = ms;
    for (int i = 0; i < MS.length && parts.size() < 2; i++) {
      long count = rest / MS[i];
      rest %= MS[i];
      if (count > 0) {
        parts.add(count + " " + UNITS[i]);
      } else if (!parts.isEmpty()) {
        break;
      }
    }
    return parts.isEmpty() ? "0 s" : String.join(" ", parts);
  }
}
