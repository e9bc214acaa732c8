package dev.ullage.report;

import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.PinUse;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Balls below a package, seen from above, through it: rows have letters and columns numbers.
 *
 * @param rows letters, from the top down
 * @param columns how many numbers there are
 * @param balls by row and number: {@code B3}
 */
record BallGrid(List<String> rows, int columns, Map<String, PinUse> balls) {
  private static final Pattern BALL = Pattern.compile("([A-Z]{1,2})(\\d{1,2})");
  private static final int GAP = 2;

  BallGrid {
    rows = List.copyOf(rows);
    balls = Map.copyOf(balls);
  }

  /** Empty where a number is not that of a ball. */
  static Optional<BallGrid> of(PinMap map) {
    TreeSet<String> rows = new TreeSet<>();
    int columns = 0;
    Map<String, PinUse> balls = new HashMap<>();
    for (PinUse pin : map.leads()) {
      Matcher ball = BALL.matcher(pin.number());
      if (!ball.matches()) {
        return Optional.empty();
      }
      rows.add(ball.group(1));
      columns = Math.max(columns, Integer.parseInt(ball.group(2)));
      balls.put(pin.number(), pin);
    }
    return balls.isEmpty()
        ? Optional.empty()
        : Optional.of(new BallGrid(new ArrayList<>(rows), columns, balls));
  }

  Optional<PinUse> at(String row, int column) {
    return Optional.ofNullable(balls.get(row + column));
  }

  boolean fits(int width) {
    return head().length() + columns * cell() <= width;
  }

  private static String head() {
    return "    ";
  }

  private int cell() {
    return GAP
        + balls.values().stream()
            .mapToInt(pin -> Math.max(pin.name().length(), PackageDrawing.label(pin).length()))
            .max()
            .orElse(0);
  }

  /** For each row a line with the names and one with the words. */
  List<String> lines() {
    List<String> lines = new ArrayList<>();
    StringBuilder numbers = new StringBuilder(head());
    for (int column = 1; column <= columns; column++) {
      numbers.append(cell("" + column));
    }
    lines.add(numbers.toString().stripTrailing());
    for (String row : rows) {
      StringBuilder names = new StringBuilder((row + head()).substring(0, head().length()));
      StringBuilder words = new StringBuilder(head());
      for (int column = 1; column <= columns; column++) {
        Optional<PinUse> pin = at(row, column);
        names.append(cell(pin.map(PinUse::name).orElse("")));
        words.append(cell(pin.map(PackageDrawing::label).orElse("")));
      }
      lines.add(names.toString().stripTrailing());
      lines.add(words.toString().stripTrailing());
    }
    return lines;
  }

  private String cell(String text) {
    return text + " ".repeat(cell() - text.length());
  }
}
