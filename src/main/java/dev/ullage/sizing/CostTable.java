package dev.ullage.sizing;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;

/**
 * Rows of one file, found by their keys. Lines are sorted, so a key is found by halving, and only
 * rows that are asked for are ever read.
 *
 * <p>Lines that start with {@code #} come first and say what was measured and how. Every other line
 * is a key, a tab, and what {@link CostRow} describes, or {@code =} and the key of a line that says
 * the same.
 */
final class CostTable {
  /** Goes up when older tables can no longer be read. */
  static final int FORMAT = 1;

  private final String text;
  private final int firstRow;
  private final Map<String, Optional<CostRow>> read = new ConcurrentHashMap<>();

  /**
   * @throws IllegalStateException where the text is of another format
   */
  CostTable(String text) {
    if (!text.startsWith(title())) {
      throw new IllegalStateException("This is no cost table of format " + FORMAT + ".");
    }
    this.text = text;
    int at = 0;
    while (at < text.length() && text.charAt(at) == '#') {
      at = text.indexOf('\n', at) + 1;
    }
    this.firstRow = at;
  }

  static String title() {
    return "# ullage cost table, format " + FORMAT + '\n';
  }

  /** The compiler with its version, and the flags it was given: what the title lines say. */
  String measuredWith() {
    return text.substring(0, firstRow)
        .lines()
        .filter(line -> line.startsWith("# compiler: ") || line.startsWith("# flags: "))
        .map(line -> line.substring(line.indexOf(':') + 2))
        .collect(Collectors.joining(" "));
  }

  /** The row of that key. */
  Optional<CostRow> row(String key) {
    return read.computeIfAbsent(key, this::readRow);
  }

  /** What the line of that key says. */
  Optional<String> fields(String key) {
    return line(key)
        .map(said -> said.startsWith("=") ? line(said.substring(1)).orElseThrow() : said);
  }

  private Optional<String> line(String key) {
    int line = firstNotBelow(key + '\t');
    return text.startsWith(key + '\t', line)
        ? Optional.of(text.substring(line + key.length() + 1, text.indexOf('\n', line)))
        : Optional.empty();
  }

  /** Keys that start so, in order. */
  List<String> keys(String start) {
    List<String> keys = new ArrayList<>();
    int line = firstNotBelow(start);
    while (text.startsWith(start, line) && line < text.length()) {
      keys.add(text.substring(line, text.indexOf('\t', line)));
      line = text.indexOf('\n', line) + 1;
    }
    return keys;
  }

  private Optional<CostRow> readRow(String key) {
    return fields(key).map(said -> CostRow.parse(key, said));
  }

  /** Where the first line starts that is not sorted before the words. */
  private int firstNotBelow(String words) {
    int low = firstRow;
    int high = text.length();
    while (low < high) {
      int middle = text.lastIndexOf('\n', (low + high) / 2 - 1) + 1;
      int line = Math.max(middle, low);
      if (isBelow(line, words)) {
        low = text.indexOf('\n', line) + 1;
      } else {
        high = line;
      }
    }
    return low;
  }

  private boolean isBelow(int line, String words) {
    int end = Math.min(line + words.length(), text.length());
    return text.substring(line, end).compareTo(words) < 0;
  }
}
