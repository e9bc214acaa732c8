package dev.ullage.report;

import dev.ullage.replay.Event;
import dev.ullage.replay.Reading;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.DoubleStream;

/** Frames as grids of coloured cells with their values, in the order of time, to one scale. */
final class FrameStrip {
  private static final int CELL_WIDTH = 46;
  private static final int CELL_HEIGHT = 26;
  private static final int GAP = 24;
  private static final int HEAD = 64;
  private static final int MOST_WIDTH = 1400;
  private static final int CHOSEN = 8;
  private static final int MOST_EVENTS = 8;
  private static final int LEAST_WIDTH = 420;
  private static final String STYLE =
      """
      .marked { fill: none; stroke: #d0021b; stroke-width: 2.5 }
      .hot { font-weight: bold }
      """;

  private final Replay replay;
  private final List<Grid> grids = new ArrayList<>();
  private final Grid.Mark mark;
  private final Values values;

  FrameStrip(Replay replay, List<Integer> readings) {
    this.replay = replay;
    this.mark = new Grid.Mark(replay.loop(), replay.limits());
    this.values = Values.sampled(replay.loop());
    for (int number : readings) {
      Reading reading = replay.trace().readings().get(number - 1);
      if (!reading.failed()) {
        boolean alarm = replay.steps().get(number - 1).alarm();
        grids.add(Grid.of(replay.loop(), number, reading, alarm));
      }
    }
  }

  /** Some evenly over the trace, and some of those that changed the alarm. */
  static List<Integer> choice(Replay replay) {
    int readings = replay.steps().size();
    SortedSet<Integer> chosen = new TreeSet<>();
    for (int i = 0; i < CHOSEN; i++) {
      chosen.add(1 + (int) ((long) i * (readings - 1) / (CHOSEN - 1)));
    }
    replay.events().stream().limit(MOST_EVENTS).map(Event::reading).forEach(chosen::add);
    return List.copyOf(chosen);
  }

  String svg() {
    int gridWidth = grids.stream().mapToInt(Grid::columns).max().orElse(1) * CELL_WIDTH + GAP;
    gridWidth = Math.max(gridWidth, 150);
    int gridHeight = grids.stream().mapToInt(Grid::rows).max().orElse(1) * CELL_HEIGHT + GAP + 20;
    int perRow = Math.max(1, Math.min(grids.size(), MOST_WIDTH / gridWidth));
    int rows = (grids.size() + perRow - 1) / perRow;
    int width = Math.max(LEAST_WIDTH, perRow * gridWidth + GAP);
    Svg svg =
        new Svg(
            width,
            HEAD + rows * gridHeight,
            replay.loop().name() + ": what the sensor saw",
            description(),
            STYLE);
    svg.text(GAP, 24, "start", replay.loop().name() + ", samples in " + values.unit());
    svg.text(GAP, 42, "start", "framed and *: " + mark.meaning(values));
    Heat heat =
        new Heat(
            grids.stream().mapToDouble(Grid::low).min().orElse(0),
            grids.stream().mapToDouble(Grid::high).max().orElse(1));
    for (int i = 0; i < grids.size(); i++) {
      int x = GAP + i % perRow * gridWidth;
      int y = HEAD + i / perRow * gridHeight;
      draw(svg, grids.get(i), x, y, heat);
    }
    return svg.close().end();
  }

  private String description() {
    return grids.size()
        + " frames, from "
        + values.full(
            grids.stream().flatMapToDouble(g -> DoubleStream.of(g.values())).min().orElse(0))
        + " to "
        + values.full(
            grids.stream().flatMapToDouble(g -> DoubleStream.of(g.values())).max().orElse(0));
  }

  private void draw(Svg svg, Grid grid, int left, int top, Heat heat) {
    String caption = "reading " + grid.reading() + ", " + Span.of(grid.timeMs());
    svg.text(left, top + 12, "start", caption + (grid.alarm() ? ", ALARM" : ""));
    for (int i = 0; i < grid.values().length; i++) {
      int x = left + i % grid.columns() * CELL_WIDTH;
      int y = top + 20 + i / grid.columns() * CELL_HEIGHT;
      double value = grid.values()[i];
      svg.shape(
          "rect",
          "x",
          x,
          "y",
          y,
          "width",
          CELL_WIDTH,
          "height",
          CELL_HEIGHT,
          "fill",
          heat.css(value));
      boolean marked = mark.marks(value);
      if (marked) {
        svg.shape(
            "rect",
            "class",
            "marked",
            "x",
            x + 2,
            "y",
            y + 2,
            "width",
            CELL_WIDTH - 4,
            "height",
            CELL_HEIGHT - 4);
      }
      svg.open(
              "text",
              "x",
              x + CELL_WIDTH / 2,
              "y",
              y + 17,
              "text-anchor",
              "middle",
              "style",
              "fill:" + heat.inkOn(value))
          .characters(values.bare(value) + (marked ? "*" : ""))
          .close();
    }
  }
}
