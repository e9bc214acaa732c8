package dev.ullage.report;

import dev.ullage.sizing.Verdict;
import java.util.Locale;

/**
 * How text is laid out.
 *
 * @param columns characters in a line
 * @param color whether verdicts are coloured
 */
public record Style(int columns, boolean color) {
  /** What text is laid out for where nothing is known of the terminal. */
  public static final int COLUMNS = 80;

  private static final String RESET = "\u001b[0m";

  /** The verdict's word, with blanks to {@code width}, coloured where colours are on. */
  String verdict(Verdict.Kind kind, int width) {
    String word = word(kind);
    String blanks = " ".repeat(Math.max(0, width - word.length()));
    return color ? code(kind) + word + RESET + blanks : word + blanks;
  }

  /** {@code fits}, {@code tight}, {@code over} or {@code lacks}. */
  static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }

  private static String code(Verdict.Kind kind) {
    return switch (kind) {
      case FITS -> "\u001b[32m";
      case TIGHT -> "\u001b[33m";
      case OVER -> "\u001b[31m";
      case LACKS -> "\u001b[35m";
    };
  }
}
