package dev.ullage.loop;

import java.util.Locale;

/** The constants of enums as the loop file writes them. */
final class LoopWords {
  private LoopWords() {}

  static String of(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }

  /** The word for {@code alarm.when}. */
  static String of(Alarm.Limit limit) {
    if (limit instanceof Alarm.Limit.Outside) {
      return "outside";
    }
    return limit instanceof Alarm.Limit.Above ? "above" : "below";
  }

  static <E extends Enum<E>> E read(String word, Class<E> type) {
    return Enum.valueOf(type, word.toUpperCase(Locale.ROOT));
  }
}
