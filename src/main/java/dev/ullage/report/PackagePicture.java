package dev.ullage.report;

import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.PinUse;
import dev.ullage.wiring.PinUse.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** A package as a picture: its body, each pin with number, name and word, and what colours mean. */
final class PackagePicture {
  private static final int EDGE = 16;
  private static final int LINE = 18;
  private static final int PITCH = 22;
  private static final int LEAD = 16;
  private static final int THICK = 12;
  private static final int GAP = 8;
  private static final int SAMPLE = 15;

  /** Between name and word: one that a viewer keeps, and one where it may cut. */
  private static final String APART = "\u00a0 ";

  /** About as wide as a character of the type is. */
  private static final int LETTER = 7;

  private static final int ROWS_BODY = 170;
  private static final int BALL = 11;
  private static final int LEAST_WIDTH = 360;

  /** Colours that people with any kind of colour vision tell apart: Okabe and Ito, 2008. */
  private static final Map<Kind, String> COLORS =
      Map.of(
          Kind.ROLE, "#0072b2",
          Kind.SUPPLY, "#d55e00",
          Kind.GROUND, "#808080",
          Kind.EXTRA, "#cc79a7",
          Kind.KEPT, "#e69f00");

  private static final Map<Kind, String> MEANINGS =
      Map.of(
          Kind.ROLE, "of the loop",
          Kind.SUPPLY, "supply",
          Kind.GROUND, "ground",
          Kind.EXTRA, "needs something",
          Kind.KEPT, "left alone",
          Kind.FREE, "free",
          Kind.NONE, "not connected");

  private static final String RULES =
      """
      .body { fill: currentColor; fill-opacity: 0.08; stroke: currentColor }
      .pin { stroke: currentColor; stroke-opacity: 0.5 }
      .free { fill: none; stroke-dasharray: 2 2 }
      .none { fill: currentColor; fill-opacity: 0.2; stroke: none }
      .first { fill: currentColor }
      .name { font-weight: bold }
      .number { font-size: 10px; fill-opacity: 0.75 }
      """;

  /**
   * Where a pin is.
   *
   * @param back whether its words end at it
   * @param turned whether they go upwards
   */
  private record Side(boolean back, boolean turned) {}

  private static final Side LEFT = new Side(true, false);
  private static final Side RIGHT = new Side(false, false);
  private static final Side ABOVE = new Side(false, true);
  private static final Side BELOW = new Side(true, true);

  private final PinMap map;
  private final PackageSides sides;
  private final Optional<BallGrid> grid;
  private int width;

  private PackagePicture(PinMap map) {
    this.map = map;
    this.sides = PackageSides.of(map);
    this.grid = BallGrid.of(map);
  }

  static String of(PinMap map) {
    PackagePicture picture = new PackagePicture(map);
    return picture.grid.map(picture::balls).orElseGet(picture::leads);
  }

  /** For those who cannot see it: what each pin that is not free is for. */
  private String description() {
    return map.pins().stream()
        .filter(pin -> pin.kind() != Kind.FREE && pin.kind() != Kind.NONE)
        .map(pin -> pin.number() + " " + pin.name() + ": " + pin.label())
        .collect(Collectors.joining("; "));
  }

  /** Begins a picture whose drawing is this wide and ends at this height. */
  private Svg svg(int drawn, int bottom) {
    String title = PackageDrawing.title(map) + ", seen from above";
    int inner = Math.max(LEAST_WIDTH, Math.max(drawn, LETTER * title.length()));
    width = inner + 2 * EDGE;
    int height = bottom + LINE * (meanings().size() + (named() ? 1 : 0)) + EDGE;
    Svg svg = new Svg(width, height, title, description(), RULES);
    svg.text(EDGE, EDGE + 12.0, "start", title);
    return svg;
  }

  private String leads() {
    int across = sides.inTwoRows() ? ROWS_BODY : (sides.top().size() + 1) * PITCH;
    int down = (sides.left().size() + 1) * PITCH;
    int atLeft = wordsWidth(sides.left()) + LEAD;
    int atRight = wordsWidth(sides.right()) + LEAD;
    int above = sides.inTwoRows() ? 0 : wordsWidth(sides.top()) + LEAD;
    int below = sides.inTwoRows() ? 0 : wordsWidth(sides.bottom()) + LEAD;
    int top = EDGE + LINE + GAP + above;
    int bottom = top + down + below + GAP;
    int drawn = atLeft + across + atRight;
    Svg svg = svg(drawn, bottom);
    int left = (width - drawn) / 2 + atLeft;
    svg.shape(
        "rect", "class", "body", "x", left, "y", top, "width", across, "height", down, "rx", 4);
    middle(svg, left + across / 2.0, top + down / 2.0, across);
    first(svg, left, top);
    for (int i = 0; i < sides.left().size(); i++) {
      lead(svg, sides.left().get(i), left, top + (i + 1) * PITCH, LEFT);
    }
    for (int i = 0; i < sides.right().size(); i++) {
      lead(svg, sides.right().get(i), left + across, top + (i + 1) * PITCH, RIGHT);
    }
    for (int i = 0; i < sides.top().size(); i++) {
      lead(svg, sides.top().get(i), left + (i + 1) * PITCH, top, ABOVE);
    }
    for (int i = 0; i < sides.bottom().size(); i++) {
      lead(svg, sides.bottom().get(i), left + (i + 1) * PITCH, top + down, BELOW);
    }
    notes(svg, bottom);
    return svg.close().end();
  }

  /** A dot at pin 1, which is in a corner or in the middle of the upper side. */
  private void first(Svg svg, int left, int top) {
    int above = sides.top().indexOf(map.leads().get(0));
    double x = above < 0 ? left + 9.0 : left + (above + 1.0) * PITCH;
    double y = above < 0 ? top + 9.0 : top + 28.0;
    svg.shape("circle", "class", "first", "cx", x, "cy", y, "r", 3);
  }

  /** What is written beside the pins of a side takes this much. */
  private static int wordsWidth(List<PinUse> pins) {
    return pins.stream().mapToInt(pin -> LETTER * (words(pin).length() + 2) + GAP).max().orElse(0);
  }

  private static String words(PinUse pin) {
    return (PackageDrawing.name(pin) + " " + PackageDrawing.label(pin)).strip();
  }

  /** The name of what is drawn, where there is room for it, and the pad. */
  private void middle(Svg svg, double x, double y, int across) {
    int room = (across - 2 * PITCH) / (LETTER - 1);
    List<String> words =
        Stream.of(
                Optional.of(map.part()),
                Optional.of(map.pack()),
                map.pad().map(pad -> "pad: " + pad.leadsTo()))
            .flatMap(Optional::stream)
            .filter(word -> word.length() <= room)
            .toList();
    for (int i = 0; i < words.size(); i++) {
      double line = y + 4 + LINE * (i - (words.size() - 1) / 2.0);
      svg.text(x, line, "middle", words.get(i));
    }
  }

  /**
   * One pin at its place on the edge, drawn to the right or, where {@code side} says so, to the
   * left, then turned. So words read from left to right or upwards, and none is upside down.
   */
  private void lead(Svg svg, PinUse pin, int x, int y, Side side) {
    String turned = side.turned ? " rotate(-90)" : "";
    svg.open("g", "transform", "translate(" + x + ' ' + y + ')' + turned);
    tooltip(svg, pin);
    int from = side.back ? -LEAD : 0;
    shape(svg, pin.kind(), "rect", "x", from, "y", -THICK / 2, "width", LEAD, "height", THICK);
    double inside = side.back ? 4 : -4;
    String inwards = side.back ? "start" : "end";
    svg.open("text", "class", "number", "x", inside, "y", 4, "text-anchor", inwards)
        .characters(pin.number())
        .close();
    double outside = side.back ? -LEAD - 5 : LEAD + 5;
    String outwards = side.back ? "end" : "start";
    svg.open("text", "x", outside, "y", 4, "text-anchor", outwards);
    String name = PackageDrawing.name(pin);
    String label = PackageDrawing.label(pin);
    if (side.back) {
      svg.characters(label.isEmpty() ? "" : label + APART);
    }
    svg.open("tspan", "class", "name").characters(name).close();
    if (!side.back) {
      svg.characters(label.isEmpty() ? "" : APART + label);
    }
    svg.close().close();
  }

  private static void tooltip(Svg svg, PinUse pin) {
    svg.open("title").characters(pin.number() + " " + pin.name() + ": " + pin.words()).close();
  }

  private static void shape(Svg svg, Kind kind, String name, Object... attributes) {
    String color = COLORS.get(kind);
    Object[] look =
        color == null
            ? new Object[] {"class", "pin " + Style.word(kind)}
            : new Object[] {"class", "pin", "fill", color};
    svg.shape(name, Stream.concat(Stream.of(look), Stream.of(attributes)).toArray());
  }

  private String balls(BallGrid balls) {
    int cell = balls.balls().values().stream().mapToInt(PackagePicture::cell).max().orElse(0);
    int high = 2 * BALL + 2 * LINE;
    int head = 2 * LETTER + GAP;
    int top = EDGE + 2 * LINE + GAP;
    int across = balls.columns() * cell;
    int down = balls.rows().size() * high;
    Svg svg = svg(head + across, top + down + GAP);
    int left = (width - head - across) / 2 + head;
    svg.shape(
        "rect", "class", "body", "x", left, "y", top, "width", across, "height", down, "rx", 4);
    for (int column = 1; column <= balls.columns(); column++) {
      svg.text(left + (column - 0.5) * cell, top - 5.0, "middle", "" + column);
    }
    for (int row = 0; row < balls.rows().size(); row++) {
      double y = top + row * high + BALL + 4.0;
      svg.text(left - GAP, y + 4, "end", balls.rows().get(row));
      for (int column = 1; column <= balls.columns(); column++) {
        double x = left + (column - 0.5) * cell;
        balls.at(balls.rows().get(row), column).ifPresent(pin -> ball(svg, pin, x, y));
      }
    }
    notes(svg, top + down + GAP);
    return svg.close().end();
  }

  private static int cell(PinUse pin) {
    int letters =
        Math.max(PackageDrawing.name(pin).length() + 1, PackageDrawing.label(pin).length());
    return Math.max(LETTER * letters + GAP, 2 * BALL + GAP);
  }

  private static void ball(Svg svg, PinUse pin, double x, double y) {
    svg.open("g", "transform", "translate(" + Svg.number(x) + " " + Svg.number(y) + ")");
    tooltip(svg, pin);
    shape(svg, pin.kind(), "circle", "r", BALL);
    svg.open("text", "class", "name", "y", BALL + 13, "text-anchor", "middle")
        .characters(PackageDrawing.name(pin))
        .close();
    svg.open("text", "y", BALL + 13 + LINE - 4, "text-anchor", "middle")
        .characters(PackageDrawing.label(pin))
        .close();
    svg.close();
  }

  /** The colours that there are, in lines that fit. */
  private List<List<Kind>> meanings() {
    List<List<Kind>> lines = new ArrayList<>();
    int left = 0;
    for (Kind kind : Kind.values()) {
      if (map.pins().stream().anyMatch(pin -> pin.kind() == kind)) {
        if (lines.isEmpty() || left < meaning(kind)) {
          lines.add(new ArrayList<>());
          left = width - 2 * EDGE;
        }
        lines.get(lines.size() - 1).add(kind);
        left -= meaning(kind);
      }
    }
    return lines;
  }

  private boolean named() {
    return map.pins().stream().anyMatch(PinUse::named);
  }

  /** How much of a line the meaning of a colour takes. */
  private static int meaning(Kind kind) {
    return SAMPLE + LETTER * MEANINGS.get(kind).length() + GAP;
  }

  /** What the colours mean, and the star. */
  private void notes(Svg svg, int bottom) {
    int y = bottom;
    for (List<Kind> line : meanings()) {
      int x = EDGE;
      y += LINE;
      for (Kind kind : line) {
        shape(svg, kind, "rect", "x", x, "y", y - 10, "width", 10, "height", 10);
        svg.text(x + SAMPLE, y, "start", MEANINGS.get(kind));
        x += meaning(kind);
      }
    }
    if (named()) {
      svg.text(EDGE, y + LINE, "start", "* named in the loop file");
    }
  }
}
