package dev.ullage.proof;

import dev.ullage.input.InputException;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Makes a loop small that shows a fault: leaves out key after key of its loop file, so that the
 * default holds, and halves the whole numbers that remain, for as long as the fault still shows.
 */
final class Shrinker {
  private static final Pattern WHOLE = Pattern.compile("( *[a-z_0-9]+: )([0-9]+)(?![.0-9x]).*");

  private final Predicate<Loop> fault;

  private Shrinker(Predicate<Loop> fault) {
    this.fault = fault;
  }

  /**
   * The text of a loop file that still shows the fault, and no longer does with any one key less.
   *
   * @param fault true for a loop that shows it, as the first one does; is asked a hundred times
   */
  static String shrink(Loop loop, Predicate<Loop> fault) {
    Shrinker shrinker = new Shrinker(fault);
    List<String> lines =
        LoopPrinter.print(loop).lines().filter(line -> !line.strip().startsWith("#")).toList();
    List<String> before;
    do {
      before = lines;
      lines = shrinker.halveNumbers(shrinker.leaveOut(before));
    } while (!lines.equals(before));
    return text(lines);
  }

  private List<String> leaveOut(List<String> all) {
    List<String> lines = all;
    for (int at = lines.size() - 1; at >= 0; at--) {
      List<String> fewer = new ArrayList<>(lines);
      fewer.subList(at, endOfBlock(lines, at)).clear();
      if (stillShows(fewer)) {
        lines = fewer;
      }
    }
    return lines;
  }

  /** Behind the line and all that is indented below it. */
  private static int endOfBlock(List<String> lines, int at) {
    int end = at + 1;
    while (end < lines.size() && indent(lines.get(end)) > indent(lines.get(at))) {
      end++;
    }
    return end;
  }

  private static int indent(String line) {
    return line.length() - line.stripLeading().length();
  }

  private List<String> halveNumbers(List<String> all) {
    List<String> lines = new ArrayList<>(all);
    for (int at = 0; at < lines.size(); at++) {
      Optional<String> half = halved(lines.get(at));
      while (half.isPresent()) {
        String whole = lines.set(at, half.get());
        if (!stillShows(lines)) {
          lines.set(at, whole);
          break;
        }
        half = halved(half.get());
      }
    }
    return lines;
  }

  /** Empty where the line holds no whole number above zero. */
  private static Optional<String> halved(String line) {
    Matcher number = WHOLE.matcher(line);
    return number.matches() && !number.group(2).equals("0")
        ? Optional.of(number.group(1) + Long.parseLong(number.group(2)) / 2)
        : Optional.empty();
  }

  private boolean stillShows(List<String> lines) {
    try {
      return fault.test(LoopReader.read("shrunk.yaml", text(lines)));
    } catch (InputException invalid) {
      return false;
    }
  }

  private static String text(List<String> lines) {
    return String.join("\n", lines) + "\n";
  }
}
