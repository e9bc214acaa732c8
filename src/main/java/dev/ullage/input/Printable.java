package dev.ullage.input;

/** Text that came from a user's file, made safe to print on a terminal. */
public final class Printable {
  private Printable() {}

  /**
   * The same text with everything that moves the cursor, turns the writing direction or shows
   * nothing at all written out as {@code \}{@code uXXXX}. What is left cannot command a terminal.
   */
  public static String of(String text) {
    StringBuilder shown = new StringBuilder(text.length());
    text.codePoints().forEach(c -> append(shown, c));
    return shown.toString();
  }

  private static void append(StringBuilder shown, int c) {
    if (isVisible(c)) {
      shown.appendCodePoint(c);
    } else {
      shown.append(String.format("\\u%04x", c));
    }
  }

  private static boolean isVisible(int c) {
    return switch (Character.getType(c)) {
      case Character.CONTROL,
              Character.FORMAT,
              Character.SURROGATE,
              Character.PRIVATE_USE,
              Character.UNASSIGNED,
              Character.LINE_SEPARATOR,
              Character.PARAGRAPH_SEPARATOR ->
          false;
      default -> true;
    };
  }
}
