package dev.ullage.input;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What most likely helps where a file is no YAML: looks at the line, and at the one before. */
final class SyntaxCure {
  private static final Pattern GLUED = Pattern.compile("^\\s*(\\w+):([^\\s:].*)$");

  private SyntaxCure() {}

  /**
   * @param problem what the parser says
   * @param line from 1, where the parser gave up
   */
  static Optional<String> of(String problem, String text, int line) {
    List<String> lines = text.lines().toList();
    for (int number = Math.min(line, lines.size()); number >= Math.max(1, line - 1); number--) {
      String written = lines.get(number - 1);
      if (written.stripLeading().startsWith("\t") || indentOf(written).contains("\t")) {
        return Optional.of("indent line " + number + " with spaces, not with tabs");
      }
      Matcher glued = GLUED.matcher(written);
      if (glued.matches()) {
        String spaced = glued.group(1) + ": " + glued.group(2).strip();
        return Optional.of("put a space after the colon on line " + number + ": `" + spaced + "`");
      }
    }
    return problem.startsWith("mapping values are not allowed")
        ? Optional.of("keys of one mapping begin in the same column")
        : Optional.empty();
  }

  private static String indentOf(String written) {
    return written.substring(0, written.length() - written.stripLeading().length());
  }
}
