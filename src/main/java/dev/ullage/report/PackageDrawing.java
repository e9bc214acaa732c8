package dev.ullage.report;

import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.PinUse;
import dev.ullage.wiring.PinUse.Kind;
import java.util.List;

/** A package with its pins and what they are for, seen from above. */
public record PackageDrawing(PinMap map) {

  /** The drawing in ASCII characters, a list where it would be wider than {@code columns}. */
  public List<String> lines(int columns) {
    return new PackageText(map, columns).lines();
  }

  /** The drawing as an SVG document. */
  public String svg() {
    return PackagePicture.of(map);
  }

  /** The part and its package. */
  static String title(PinMap map) {
    return map.part() + " in " + map.pack();
  }

  /**
   * What is written at a pin: in brackets what it is kept free for, with a star what the loop file
   * asked for; nothing where it is free.
   */
  static String label(PinUse pin) {
    return switch (pin.kind()) {
      case FREE, NONE -> "";
      case KEPT -> "(" + pin.label() + ")";
      default -> pin.named() ? pin.label() + "*" : pin.label();
    };
  }

  /** The data sheet's name, or {@code NC}. */
  static String name(PinUse pin) {
    return pin.kind() == Kind.NONE ? "NC" : pin.name();
  }

  /** Explains those of the marks that the drawing has. */
  static String legend(PinMap map) {
    StringBuilder legend = new StringBuilder();
    if (map.pins().stream().anyMatch(pin -> pin.kind() == Kind.KEPT)) {
      legend.append("In brackets: left alone, but not free. ");
    }
    if (map.pins().stream().anyMatch(PinUse::named)) {
      legend.append("With a star: named in the loop file. ");
    }
    if (map.pins().stream().anyMatch(pin -> pin.kind() == Kind.FREE)) {
      legend.append("Without a word: free. ");
    }
    if (map.pins().stream().anyMatch(pin -> pin.kind() == Kind.NONE)) {
      legend.append("NC: not connected. ");
    }
    return legend.toString().strip();
  }
}
