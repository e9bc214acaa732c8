package dev.ullage.proof;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * How long and how deep C code is.
 *
 * @param lines all of them
 * @param codeLines those that hold more than a comment
 */
record CodeShape(int lines, int codeLines, List<Function> functions) {
  private static final Pattern COMMENT_OR_TEXT =
      Pattern.compile(
          "/\\*.*?\\*/|//[^\n]*|\"(?:\\\\.|[^\"\\\\])*\"|'(?:\\\\.|[^'\\\\])*'", Pattern.DOTALL);

  private static final Pattern DIRECTIVE = Pattern.compile("(?m)^[ \t]*#(?:.*\\\\\n)*.*");

  /** All before the brace of a function; the name is the first one before a parenthesis. */
  private static final Pattern HEAD =
      Pattern.compile("(?s).*?\\b(?!__attribute__)(\\w+)\\s*\\(.*\\)\\s*");

  /**
   * A function with a body.
   *
   * @param lines from the line before its brace to the closing one
   * @param nesting blocks inside each other, its own body not counted
   */
  record Function(String name, int lines, int nesting) {}

  static CodeShape of(String text) {
    String code = blankOut(COMMENT_OR_TEXT, text);
    return new CodeShape(
        (int) text.lines().count(),
        (int) code.lines().filter(line -> !line.isBlank()).count(),
        functions(blankOut(DIRECTIVE, code)));
  }

  /** Leaves the line ends, and one character for what was there. */
  private static String blankOut(Pattern what, String text) {
    return what.matcher(text).replaceAll(found -> found.group().replaceAll("[^\n]", " "));
  }

  private static List<Function> functions(String code) {
    List<Function> functions = new ArrayList<>();
    int headStart = 0;
    for (int at = 0; at < code.length(); at++) {
      char c = code.charAt(at);
      if (c == ';' || c == '}') {
        headStart = at + 1;
      } else if (c == '{') {
        int end = endOfBlock(code, at);
        Matcher head = HEAD.matcher(code.substring(headStart, at));
        if (head.matches()) {
          functions.add(function(head.group(1), code.substring(at, end)));
        }
        at = end - 1;
        headStart = end;
      }
    }
    return functions;
  }

  private static int endOfBlock(String code, int start) {
    int depth = 0;
    for (int at = start; at < code.length(); at++) {
      depth += step(code.charAt(at));
      if (depth == 0) {
        return at + 1;
      }
    }
    throw new IllegalArgumentException("A block without an end: " + code.substring(start));
  }

  private static Function function(String name, String body) {
    int depth = 0;
    int deepest = 0;
    for (char c : body.toCharArray()) {
      depth += step(c);
      deepest = Math.max(deepest, depth);
    }
    return new Function(name, (int) body.lines().count() + 1, deepest - 1);
  }

  private static int step(char c) {
    return c == '{' ? 1 : c == '}' ? -1 : 0;
  }
}
