package dev.ullage.report;

import dev.ullage.replay.Event;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Span;
import dev.ullage.replay.Spread;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The average over time with its limits, stretches of alarm shaded and hatched by a bar below, and
 * failed readings as ticks.
 */
final class ReplayPlot {
  private static final int WIDTH = 960;
  private static final int HEIGHT = 420;
  private static final int LEFT = 70;
  private static final int RIGHT = 30;
  private static final int TOP = 40;
  private static final int BOTTOM = 70;
  private static final int MOST_POINTS = 2 * (WIDTH - LEFT - RIGHT);
  private static final int TICKS = 6;
  private static final double MARGIN = 0.05;
  private static final String STYLE =
      """
      .average { fill: none; stroke: #1565a7; stroke-width: 1.5 }
      .trip { stroke: #b3261e; stroke-width: 1.5 }
      .clear { stroke: #b3261e; stroke-width: 1; stroke-dasharray: 5 4 }
      .alarm { fill: #b3261e; fill-opacity: 0.14 }
      .on { fill: #b3261e }
      .failed { stroke: #8a6d00; stroke-width: 1.5 }
      @media (prefers-color-scheme: dark) { .average { stroke: #7fbdf0 } .trip, .clear { stroke: #ff8a80 }
        .alarm, .on { fill: #ff8a80 } .failed { stroke: #e0c45c } }
      """;

  private final Replay replay;
  private final Values values;
  private final double low;
  private final double high;
  private final long end;

  ReplayPlot(Replay replay) {
    this.replay = replay;
    this.values = Values.judged(replay.loop());
    Spread spread =
        Spread.of(IntStream.range(0, replay.steps().size()).mapToDouble(replay::average).toArray());
    double lowest = replay.limits().all().min(Double::compare).orElseThrow();
    double highest = replay.limits().all().max(Double::compare).orElseThrow();
    double least = spread.count() == 0 ? lowest : Math.min(lowest, spread.low());
    double most = spread.count() == 0 ? highest : Math.max(highest, spread.high());
    double margin = most > least ? (most - least) * MARGIN : 1;
    this.low = least - margin;
    this.high = most + margin;
    this.end = Math.max(1, replay.summary().lengthMs());
  }

  String svg() {
    String title = replay.loop().name() + ": the average and its limits";
    Svg svg = new Svg(WIDTH, HEIGHT, title, description(), STYLE);
    svg.text(LEFT, TOP - 16, "start", replay.loop().name() + ", average in " + values.unit());
    addAlarms(svg);
    addScales(svg);
    replay.limits().clear().forEach(limit -> line(svg, "clear", limit));
    replay.limits().trip().forEach(limit -> line(svg, "trip", limit));
    svg.shape("path", "class", "average", "d", path());
    addFailures(svg);
    svg.shape(
        "rect",
        "class",
        "frame",
        "x",
        LEFT,
        "y",
        TOP,
        "width",
        WIDTH - LEFT - RIGHT,
        "height",
        HEIGHT - TOP - BOTTOM);
    return svg.close().end();
  }

  private String description() {
    StringBuilder text = new StringBuilder();
    for (List<String> row : ReplayTables.summary(replay).rows()) {
      text.append(row.get(0)).append(": ").append(row.get(1)).append(". ");
    }
    return text.toString().strip();
  }

  private void addAlarms(Svg svg) {
    List<Event> events = replay.events();
    for (int i = 0; i < events.size(); i += 2) {
      double from = x(events.get(i).timeMs());
      double to = x(i + 1 < events.size() ? events.get(i + 1).timeMs() : end);
      svg.shape(
          "rect",
          "class",
          "alarm",
          "x",
          from,
          "y",
          TOP,
          "width",
          to - from,
          "height",
          HEIGHT - TOP - BOTTOM);
      svg.shape(
          "rect",
          "class",
          "on",
          "x",
          from,
          "y",
          HEIGHT - BOTTOM + 4,
          "width",
          to - from,
          "height",
          8);
    }
    svg.text(LEFT - 6, HEIGHT - BOTTOM + 12, "end", "alarm");
  }

  private void addScales(Svg svg) {
    for (double value : Ticks.between(low, high, TICKS)) {
      line(svg, "faint", value);
      svg.text(LEFT - 6, y(value) + 4, "end", values.bare(value));
    }
    for (long time : Ticks.times(end, TICKS)) {
      svg.text(x(time), HEIGHT - BOTTOM + 30, "middle", Span.of(time));
    }
    svg.text(
        WIDTH - RIGHT,
        HEIGHT - 14,
        "end",
        "solid: limit; dashed: where it clears; shaded and bar: alarm on; ticks: failed"
            + " readings");
  }

  private void line(Svg svg, String kind, double value) {
    svg.shape(
        "line", "class", kind, "x1", LEFT, "x2", WIDTH - RIGHT, "y1", y(value), "y2", y(value));
  }

  /** Where there are more readings than can be seen, the lowest and the highest of each few. */
  private String path() {
    int readings = replay.steps().size();
    int each = Math.max(1, 2 * readings / MOST_POINTS);
    StringBuilder path = new StringBuilder();
    boolean pen = false;
    for (int from = 0; from < readings; from += each) {
      int to = Math.min(readings, from + each);
      Spread spread = Spread.of(IntStream.range(from, to).mapToDouble(replay::average).toArray());
      if (spread.count() > 0) {
        path.append(pen ? 'L' : 'M').append(point(from, spread.low()));
        if (spread.high() > spread.low()) {
          path.append('L').append(point(from, spread.high()));
        }
        pen = true;
      } else if (IntStream.range(from, to).anyMatch(i -> !replay.steps().get(i).good())) {
        pen = false;
      }
    }
    return path.toString();
  }

  private String point(int index, double value) {
    return Svg.number(x(replay.trace().readings().get(index).timeMs()))
        + ' '
        + Svg.number(y(value));
  }

  private void addFailures(Svg svg) {
    double drawn = -1;
    for (int i = 0; i < replay.steps().size(); i++) {
      double x = x(replay.trace().readings().get(i).timeMs());
      if (!replay.steps().get(i).good() && x >= drawn + 1) {
        svg.shape(
            "line",
            "class",
            "failed",
            "x1",
            x,
            "x2",
            x,
            "y1",
            HEIGHT - BOTTOM - 8,
            "y2",
            HEIGHT - BOTTOM);
        drawn = x;
      }
    }
  }

  private double x(long timeMs) {
    return LEFT + (double) (WIDTH - LEFT - RIGHT) * timeMs / end;
  }

  private double y(double value) {
    return TOP + (HEIGHT - TOP - BOTTOM) * (high - value) / (high - low);
  }
}
