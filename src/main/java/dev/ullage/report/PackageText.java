package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;

import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.PinUse;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/**
 * A package in characters. Pins on the upper and the lower side have their words at the left, with
 * a line that leads to the pin, so that all of them read from left to right and downwards by
 * number.
 */
final class PackageText {
  private static final int LEAD = 3;
  private static final int BODY = 9;
  private static final int PITCH = 2;

  /** Up to here pins are further apart, so that the part's name has room between them. */
  private static final int FEW_PINS = 8;

  private final PinMap map;
  private final PackageSides sides;
  private final int columns;
  private final int leftWidth;
  private final int rightWidth;
  private final int nameWidth;
  private final int numberWidth;

  PackageText(PinMap map, int columns) {
    this.map = map;
    this.sides = PackageSides.of(map);
    this.columns = columns;
    this.nameWidth =
        map.leads().stream().mapToInt(pin -> PackageDrawing.name(pin).length()).max().orElse(0);
    this.numberWidth = map.leads().stream().mapToInt(pin -> pin.number().length()).max().orElse(0);
    List<PinUse> atLeft = new ArrayList<>(sides.left());
    atLeft.addAll(sides.top());
    atLeft.addAll(sides.bottom());
    this.leftWidth = labels(atLeft) + 2 + nameWidth + 1 + numberWidth;
    this.rightWidth = numberWidth + 1 + nameWidth + 2 + labels(sides.right());
  }

  private static int labels(List<PinUse> pins) {
    return pins.stream().mapToInt(pin -> PackageDrawing.label(pin).length()).max().orElse(0);
  }

  /** The drawing, what is below the package, and what its marks mean. */
  List<String> lines() {
    List<String> lines = new ArrayList<>(drawing());
    map.pad().ifPresent(pad -> lines.add("The pad below goes to " + pad.leadsTo() + "."));
    String legend = PackageDrawing.legend(map);
    if (!legend.isEmpty()) {
      lines.addAll(Paragraph.lines("", legend, columns));
    }
    return List.copyOf(lines);
  }

  private List<String> drawing() {
    return BallGrid.of(map)
        .map(grid -> grid.fits(columns) ? grid.lines() : list())
        .orElseGet(this::leads);
  }

  private List<String> leads() {
    if (sides.inTwoRows()) {
      return width(BODY) <= columns ? rows() : list();
    }
    int widest = sides.top().size() > FEW_PINS ? PITCH : PITCH + 1;
    for (int pitch = widest; pitch > 0; pitch--) {
      if (width(body(pitch)) <= columns) {
        return quad(pitch);
      }
    }
    return list();
  }

  private int width(int body) {
    return leftWidth + LEAD + body + LEAD + rightWidth;
  }

  private int body(int pitch) {
    return (sides.top().size() - 1) * pitch + LEAD;
  }

  private List<String> rows() {
    List<String> lines = new ArrayList<>();
    String edge = " ".repeat(leftWidth + 2) + "+" + "-".repeat(BODY) + "+";
    lines.add(edge);
    for (int i = 0; i < sides.left().size(); i++) {
      lines.add(body(i, (i == 0 ? "o" : " ") + " ".repeat(BODY - 1)));
    }
    lines.add(edge);
    return lines;
  }

  /** The left and the right pin at this height, with what is between them. */
  private String body(int i, String between) {
    String right = i < sides.right().size() ? "|- " + rightOf(sides.right().get(i)) : "|";
    return (leftOf(sides.left().get(i)) + " -|" + between + right).stripTrailing();
  }

  private String leftOf(PinUse pin) {
    String label = PackageDrawing.label(pin);
    int width = leftWidth - 3 - nameWidth - numberWidth;
    return " ".repeat(width - label.length())
        + label
        + "  "
        + " ".repeat(nameWidth - PackageDrawing.name(pin).length())
        + PackageDrawing.name(pin)
        + " "
        + " ".repeat(numberWidth - pin.number().length())
        + pin.number();
  }

  private String rightOf(PinUse pin) {
    return pin.number()
        + " ".repeat(numberWidth - pin.number().length() + 1)
        + PackageDrawing.name(pin)
        + " ".repeat(nameWidth - PackageDrawing.name(pin).length() + 2)
        + PackageDrawing.label(pin);
  }

  private List<String> quad(int pitch) {
    List<String> lines = new ArrayList<>();
    String edge =
        " ".repeat(leftWidth + 2)
            + "+-"
            + String.join("-".repeat(pitch - 1), Collections.nCopies(sides.top().size(), "+"))
            + "-+";
    List<String> above = stairs(sides.top(), pitch);
    Collections.reverse(above);
    lines.addAll(above);
    lines.add(edge);
    for (int i = 0; i < sides.left().size(); i++) {
      lines.add(body(i, inside(i, pitch)));
    }
    lines.add(edge);
    lines.addAll(stairs(sides.bottom(), pitch));
    return lines;
  }

  /** A mark at pin 1, and in the middle what the package is. */
  private String inside(int row, int pitch) {
    StringBuilder inside = new StringBuilder(" ".repeat(body(pitch)));
    PinUse first = map.leads().get(0);
    int above = sides.top().indexOf(first);
    if (row == 0) {
      inside.setCharAt(above < 0 ? 0 : 1 + above * pitch, 'o');
    }
    int middle = sides.left().size() / 2;
    List<String> words = List.of(map.part(), map.pack());
    int word = row - middle + 1;
    if (word >= 0 && word < words.size() && words.get(word).length() + 2 <= inside.length()) {
      int from = (inside.length() - words.get(word).length()) / 2;
      inside.replace(from, from + words.get(word).length(), words.get(word));
    }
    return inside.toString();
  }

  /**
   * Words at the left with lines to the pins of the lower side: the leftmost pin is the nearest.
   */
  private List<String> stairs(List<PinUse> pins, int pitch) {
    List<String> lines = new ArrayList<>();
    for (int i = 0; i < pins.size(); i++) {
      String rest = (" ".repeat(pitch - 1) + "|").repeat(pins.size() - 1 - i);
      lines.add(leftOf(pins.get(i)) + " " + "-".repeat(LEAD + i * pitch) + "+" + rest);
    }
    return lines;
  }

  /** One pin a line, where there is no room for more. */
  private List<String> list() {
    Table table =
        new Table(
            List.of(left("number"), left("pin"), left("use")),
            map.leads().stream()
                .map(
                    pin ->
                        List.of(pin.number(), PackageDrawing.name(pin), PackageDrawing.label(pin)))
                .toList());
    TextTable text = new TextTable(table, columns);
    List<String> lines = new ArrayList<>(text.title());
    lines.addAll(text.rows());
    return lines;
  }
}
