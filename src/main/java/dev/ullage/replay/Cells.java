package dev.ullage.replay;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/**
 * The cells of one line of comma-separated values (RFC 4180), without blanks around them.
 *
 * @param places in which character of the line each begins, from 1; 0 where the line has quotes
 */
record Cells(List<String> texts, List<Integer> places) {
  private static final Pattern NUMBER =
      Pattern.compile("[-+]?([0-9]{1,30}([.][0-9]{0,30})?|[.][0-9]{1,30})([eE][-+]?[0-9]{1,2})?");
  private static final Pattern HEX = Pattern.compile("0[xX][0-9a-fA-F]{1,8}");
  private static final Pattern DATE = Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}.*");

  /** The separator that a line seems to use: a semicolon, a tab, or else a comma. */
  static char separatorOf(String line) {
    return line.indexOf(';') >= 0 ? ';' : line.indexOf('\t') >= 0 ? '\t' : ',';
  }

  static Cells of(String line, char separator) throws IOException {
    CSVFormat format =
        CSVFormat.Builder.create(CSVFormat.RFC4180)
            .setDelimiter(separator)
            .setIgnoreSurroundingSpaces(true)
            .build();
    List<String> texts = new ArrayList<>();
    try (CSVParser parser = CSVParser.parse(line, format)) {
      for (CSVRecord row : parser) {
        row.forEach(texts::add);
      }
    }
    return new Cells(texts, places(line, separator, texts.size()));
  }

  private static List<Integer> places(String line, char separator, int count) {
    if (line.indexOf('"') >= 0) {
      return Collections.nCopies(count, 0);
    }
    List<Integer> places = new ArrayList<>(count);
    int start = 0;
    for (int i = 0; i < count; i++) {
      int first = start;
      while (first < line.length() && line.charAt(first) == ' ') {
        first++;
      }
      places.add(first + 1);
      int next = line.indexOf(separator, start);
      start = next < 0 ? line.length() : next + 1;
    }
    return places;
  }

  int size() {
    return texts.size();
  }

  String text(int cell) {
    return texts.get(cell);
  }

  int place(int cell) {
    return places.get(cell);
  }

  /** True if this line gives names to columns: none of its cells is a value. */
  boolean isHeader() {
    return texts.stream().noneMatch(Cells::isValue)
        && texts.stream().anyMatch(text -> !text.isEmpty());
  }

  private static boolean isValue(String text) {
    return text.equals("-")
        || isNumber(text)
        || HEX.matcher(text).matches()
        || DATE.matcher(text).matches();
  }

  static boolean isNumber(String text) {
    return NUMBER.matcher(text).matches();
  }

  static boolean isHex(String text) {
    return HEX.matcher(text).matches();
  }
}
