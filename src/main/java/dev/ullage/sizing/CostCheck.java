package dev.ullage.sizing;

import dev.ullage.input.Findings;
import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Holds the text of a cost table against the form that {@link CostRow} and {@link CostTable}
 * describe. The tables that come with the tool are not checked each time: the build made them.
 */
final class CostCheck {
  private static final String NUMBER = "[0-9]{1,7}";
  private static final String NAME = "[A-Za-z0-9_.$+]+";
  // No pattern repeats a group: Java's matcher takes a piece of stack for each repetition.
  private static final Pattern KIND = Pattern.compile("[CRDZEXcrdzex]");
  private static final Pattern SYMBOL_NAME = Pattern.compile(NAME);
  private static final Pattern SIZE =
      Pattern.compile("-?" + NUMBER + "(/([1-9][0-9]{0,3}|" + NAME + "@-?" + NUMBER + "))?");
  private static final Pattern STEP = Pattern.compile("-?" + NUMBER + "\\*[a-z_]+");
  private static final Pattern STACK = Pattern.compile(NUMBER);
  private static final Pattern EDGE = Pattern.compile(NAME + "([@>]" + NUMBER + ")?");
  private static final Pattern SITE = Pattern.compile(NUMBER + "([*+][a-z_]+)?");
  private static final Pattern NEED = Pattern.compile("\\+" + NAME);
  private static final Pattern MODULE = Pattern.compile("\\w+\\[([^\\[\\]]*)\\]");
  private static final Pattern TRAIT = Pattern.compile("\\w+=[\\w-]*");
  private static final Pattern NAMED = Pattern.compile("[A-Za-z0-9_.$+-]+");
  private static final Pattern START_UP = Pattern.compile("[a-z0-9-]+\t" + NUMBER + "\t" + NUMBER);

  /** A line is a few hundred characters; patterns are not for ones without end. */
  private static final int LONGEST_LINE = 20_000;

  private static final int MOST_FINDINGS = 20;

  private final String file;
  private final Findings findings;
  private final Set<String> whole = new HashSet<>();
  private String before = "";
  private int number;

  private CostCheck(String file) {
    this.file = file;
    this.findings = new Findings(file);
  }

  /**
   * The same text, which a table can be made of.
   *
   * @param file its name, which tells what kind of table it is
   * @throws dev.ullage.input.InputException with the lines that are wrong
   */
  static String checked(String file, String text) {
    CostCheck check = new CostCheck(file);
    if (!text.startsWith(CostTable.title())) {
      check.findings.add(1, 0, "", "something else", "a cost table of format " + CostTable.FORMAT);
    } else if (text.indexOf('\r') >= 0) {
      check.findings.add(0, 0, "", "with carriage returns", "of lines that end in a line feed");
    } else if (!text.endsWith("\n")) {
      check.findings.add(0, 0, "", "cut short", "whole to its last line");
    } else {
      check.lines(text);
    }
    check.findings.throwIfAny();
    return text;
  }

  private void lines(String text) {
    int wrong = 0;
    boolean rows = false;
    for (String line : text.substring(0, text.length() - 1).split("\n", -1)) {
      number++;
      rows |= !line.startsWith("#");
      if (rows && !row(line) && ++wrong == MOST_FINDINGS) {
        return;
      }
    }
  }

  /** Answers whether the row is as it should be. */
  private boolean row(String line) {
    int tab = line.indexOf('\t');
    if (tab <= 0 || line.length() > LONGEST_LINE) {
      return wrong("something else", "a key, a tab, and what was measured");
    }
    String key = line.substring(0, tab);
    String fields = line.substring(tab + 1);
    if (key.compareTo(before) <= 0) {
      return wrong("`" + key + "` after `" + before + "`", "sorted by keys, each there once");
    }
    before = key;
    if (fields.startsWith("=")) {
      return whole.contains(fields.substring(1))
          || wrong(
              "one that points to `" + fields.substring(1) + "`", "or point to, a line before");
    }
    whole.add(key);
    return isKey(key) && areFields(fields) || wrong("something else", "a row of a cost table");
  }

  private boolean isKey(String key) {
    if (file.startsWith("start-up.") || file.startsWith("helpers.")) {
      return NAMED.matcher(key).matches();
    }
    Matcher module = MODULE.matcher(key);
    return module.matches()
        && (module.group(1).isEmpty() || areAll(TRAIT, module.group(1).split(",", -1), 0));
  }

  private boolean areFields(String fields) {
    if (file.startsWith("start-up.")) {
      return START_UP.matcher(fields).matches();
    }
    if (fields.isEmpty()) {
      return !file.startsWith("helpers.");
    }
    boolean first = true;
    for (String field : fields.split("\t", -1)) {
      if (!isSymbol(field)
          && (first && file.startsWith("helpers.") || !NEED.matcher(field).matches())) {
        return false;
      }
      first = false;
    }
    return true;
  }

  private static boolean isSymbol(String field) {
    String[] words = field.split(" ", -1);
    return words.length >= 4
        && KIND.matcher(words[0]).matches()
        && SYMBOL_NAME.matcher(words[1]).matches()
        && isSize(words[2])
        && STACK.matcher(words[3]).matches()
        && Arrays.stream(words).skip(4).allMatch(CostCheck::isEdge);
  }

  private static boolean isSize(String word) {
    String[] terms = word.split("\\+", -1);
    return SIZE.matcher(word).matches()
        || SIZE.matcher(terms[0]).matches() && areAll(STEP, terms, 1);
  }

  private static boolean isEdge(String word) {
    String[] parts = word.split("~", -1);
    return EDGE.matcher(parts[0]).matches()
        && (parts.length == 1 || parts.length == 2 && areAll(SITE, parts[1].split(",", -1), 0));
  }

  private static boolean areAll(Pattern pattern, String[] words, int from) {
    return Arrays.stream(words).skip(from).allMatch(word -> pattern.matcher(word).matches());
  }

  private boolean wrong(String found, String expected) {
    findings.add(number, 0, "the line", found, expected);
    return false;
  }
}
