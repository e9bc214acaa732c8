package dev.ullage.wiring;

import java.util.Locale;

/**
 * Something that the builder of the board must know.
 *
 * @param text a sentence without its full stop
 */
public record Remark(Weight weight, String text) {

  /** How much it matters. */
  public enum Weight {
    /** It will not work, or something may break. */
    FAULT,
    /** It may not work. */
    WARNING,
    /** Worth knowing. */
    NOTE;

    /** As it is printed. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  static Remark fault(String text) {
    return new Remark(Weight.FAULT, text);
  }

  static Remark warning(String text) {
    return new Remark(Weight.WARNING, text);
  }

  static Remark note(String text) {
    return new Remark(Weight.NOTE, text);
  }
}
