package dev.ullage.emit;

import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * Makes a text of the user's safe for one place in an emitted file. Each method is for the one
 * place in its name; whatever the text holds, it stays inside that place and on one line.
 */
final class Escape {
  /** Names that Windows keeps for devices, so that no folder can have them. */
  private static final Pattern DEVICE = Pattern.compile("con|prn|aux|nul|com[0-9]|lpt[0-9]");

  private static final Pattern PLAIN_WORD = Pattern.compile("[A-Za-z0-9_./][A-Za-z0-9_./:@%+,-]*");
  private static final int FOLDER_NAME_MAX = 48;

  private Escape() {}

  /**
   * For inside a block comment of C, with a blank on both sides. Neither ends the comment nor opens
   * another, which compilers warn of; holds no trigraph and does not end in a backslash.
   */
  static String cComment(String text) {
    String line = onOneLine(text).replace("??", "? ?").replace("??", "? ?");
    return noBackslashAtEnd(line.replaceAll("(?<=\\*)(?=/)|(?<=/)(?=\\*)", " "));
  }

  /**
   * A string literal of C, quotes included, for exactly the bytes of the text in UTF-8 (a surrogate
   * without its twin becomes {@code ?}).
   */
  static String cString(String text) {
    StringBuilder literal = new StringBuilder("\"");
    for (byte b : text.getBytes(StandardCharsets.UTF_8)) {
      literal.append(cCharacter(b & 0xFF));
    }
    return literal.append('"').toString();
  }

  /** Three octal digits end by themselves; hexadecimal ones would swallow what follows. */
  private static String cCharacter(int b) {
    if (b == '"' || b == '\\' || b == '?') {
      return "\\" + (char) b;
    }
    return b >= ' ' && b <= '~' ? String.valueOf((char) b) : String.format("\\%03o", b);
  }

  /** For after {@code #} in a Makefile or a shell script. */
  static String makeComment(String text) {
    return noBackslashAtEnd(onOneLine(text));
  }

  /**
   * For the right side of an assignment in a Makefile. A backslash counts only before a number sign
   * or at the end of the line, where a reference to nothing follows it.
   */
  static String makeValue(String text) {
    String value = onOneLine(text).replace("$", "$$").replaceAll("(\\\\*)#", "$1$1\\\\#");
    return value.endsWith("\\") ? value + "$()" : value;
  }

  /** For running text in Markdown: no markup, no HTML, no link that a viewer makes by itself. */
  static String markdown(String text) {
    return onOneLine(text)
        .replaceAll("[\\\\`*_\\[\\]|~$@]|:(?=/)|(?<=(?i:www))\\.", "\\\\$0")
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replaceFirst("^[-#+=]|(?<=^\\d{1,9})[.)](?= |$)", "\\\\$0");
  }

  /** One word of a shell command. */
  static String shellWord(String text) {
    String word = onOneLine(text);
    return PLAIN_WORD.matcher(word).matches() ? word : "'" + word.replace("'", "'\\''") + "'";
  }

  /** A folder name on every system: {@code a-z}, {@code 0-9} and single hyphens, never empty. */
  static String folderName(String text) {
    String ascii = Normalizer.normalize(text, Normalizer.Form.NFKD).replaceAll("\\p{M}+", "");
    String slug = ascii.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    String cut = slug.substring(0, Math.min(slug.length(), FOLDER_NAME_MAX));
    String name = cut.replaceAll("^-|-$", "");
    return name.isEmpty() || DEVICE.matcher(name).matches()
        ? (name + "-loop").replaceAll("^-", "")
        : name;
  }

  /** Every run of blanks, and of characters that do not print, becomes one blank. */
  private static String onOneLine(String text) {
    StringBuilder line = new StringBuilder(text.length());
    text.codePoints().forEach(c -> line.appendCodePoint(isPrintable(c) ? c : ' '));
    return line.toString().replaceAll(" +", " ").strip();
  }

  /** False for what ends a line, moves a cursor or turns the direction of writing. */
  private static boolean isPrintable(int c) {
    return switch (Character.getType(c)) {
      case Character.CONTROL,
              Character.FORMAT,
              Character.SURROGATE,
              Character.PRIVATE_USE,
              Character.UNASSIGNED,
              Character.SPACE_SEPARATOR,
              Character.LINE_SEPARATOR,
              Character.PARAGRAPH_SEPARATOR ->
          false;
      default -> true;
    };
  }

  /** A backslash there would join the next line to this one. */
  private static String noBackslashAtEnd(String line) {
    return line.endsWith("\\") ? line + '.' : line;
  }
}
