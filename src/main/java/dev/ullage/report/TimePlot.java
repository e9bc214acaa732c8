package dev.ullage.report;

import dev.ullage.replay.Replay;
import dev.ullage.replay.Span;
import dev.ullage.replay.Spread;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;

/** The average over the readings, in characters, with its limits, alarms and failures below. */
final class TimePlot {
  private static final int HEIGHT = 12;
  private static final int LEAST_WIDTH = 20;

  private final Replay replay;
  private final Values values;
  private final int columns;
  private final int labels;
  private final double low;
  private final double high;

  TimePlot(Replay replay, int width) {
    this.replay = replay;
    this.values = Values.judged(replay.loop());
    double[] all = averages(0, replay.steps().size());
    Spread spread = Spread.of(all);
    double lowest = replay.limits().all().min(Double::compare).orElseThrow();
    double highest = replay.limits().all().max(Double::compare).orElseThrow();
    this.low = spread.count() == 0 ? lowest : Math.min(lowest, spread.low());
    this.high = spread.count() == 0 ? highest : Math.max(highest, spread.high());
    this.labels =
        Math.max(
            "failed".length(), Math.max(values.bare(low).length(), values.bare(high).length()));
    this.columns = Math.min(replay.steps().size(), Math.max(LEAST_WIDTH, width - labels - 2));
  }

  /** The lines, without line ends. */
  List<String> lines() {
    char[][] field = new char[HEIGHT][columns];
    for (char[] row : field) {
      Arrays.fill(row, ' ');
    }
    replay.limits().clear().forEach(limit -> Arrays.fill(field[row(limit)], '.'));
    replay.limits().trip().forEach(limit -> Arrays.fill(field[row(limit)], '-'));
    for (int column = 0; column < columns; column++) {
      Spread spread = Spread.of(averages(first(column), first(column + 1)));
      if (spread.count() > 0) {
        for (int row = row(spread.high()); row <= row(spread.low()); row++) {
          field[row][column] = '*';
        }
      }
    }
    List<String> lines = new ArrayList<>();
    for (int row = 0; row < HEIGHT; row++) {
      lines.add(line(label(row), new String(field[row])));
    }
    lines.add(line("alarm", below(i -> replay.steps().get(i).alarm(), '#')));
    if (replay.steps().stream().anyMatch(step -> !step.good())) {
      lines.add(line("failed", below(i -> !replay.steps().get(i).good(), 'x')));
    }
    String end = Span.of(replay.summary().lengthMs());
    lines.add(line("", "0" + " ".repeat(Math.max(1, columns - end.length() - 1)) + end));
    return lines;
  }

  /** As many blanks as stand before the picture. */
  String margin() {
    return " ".repeat(labels + 2);
  }

  private String line(String label, String field) {
    return (" ".repeat(labels - label.length()) + label + " |" + field).stripTrailing();
  }

  /** Limits are named; so are the ends, where no limit is next to them. */
  private String label(int row) {
    for (double limit : replay.limits().all().toList()) {
      if (row(limit) == row) {
        return values.bare(limit);
      }
    }
    return row == 0 ? values.bare(high) : row == HEIGHT - 1 ? values.bare(low) : "";
  }

  private int row(double value) {
    double place = high > low ? (high - value) / (high - low) : 0.5;
    return (int) Math.round(place * (HEIGHT - 1));
  }

  private String below(IntPredicate is, char mark) {
    StringBuilder row = new StringBuilder();
    for (int column = 0; column < columns; column++) {
      boolean any = false;
      for (int i = first(column); i < first(column + 1); i++) {
        any |= is.test(i);
      }
      row.append(any ? mark : ' ');
    }
    return row.toString();
  }

  private double[] averages(int from, int to) {
    double[] averages = new double[to - from];
    for (int i = from; i < to; i++) {
      averages[i - from] = replay.average(i);
    }
    return averages;
  }

  /** The first reading of a column, from 0. */
  private int first(int column) {
    return (int) ((long) column * replay.steps().size() / columns);
  }
}
