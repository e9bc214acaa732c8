package dev.ullage.target;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Pins that a peripheral's signals can be led to.
 *
 * @param pins by their data-sheet names, in the order of the signals: {@code sda scl} of a bus;
 *     {@link #ANY} where every pin of the package will do
 * @param words what the pins or the peripheral must be told for it: {@code af=1}
 */
public record Route(List<String> pins, Map<String, String> words) {
  /** Stands for every pin, where a switch matrix leads a signal to any. */
  public static final String ANY = "any";

  public Route {
    pins = List.copyOf(pins);
    words = Collections.unmodifiableMap(new LinkedHashMap<>(words));
  }

  /** Whether a signal can be led to this pin. */
  public boolean leadsTo(String pin) {
    return pins.contains(pin) || pins.contains(ANY);
  }

  /** Routes as they are written: {@code PB7 PB6 af=1 | PB9 PB8 af=1}, the preferred first. */
  static List<Route> parse(String text) {
    List<Route> routes = new ArrayList<>();
    for (String one : text.split(" \\| ")) {
      List<String> pins = new ArrayList<>();
      Map<String, String> words = new LinkedHashMap<>();
      for (String word : one.strip().split(" ")) {
        int equals = word.indexOf('=');
        if (equals < 0) {
          pins.add(word);
        } else {
          words.put(word.substring(0, equals), word.substring(equals + 1));
        }
      }
      if (pins.isEmpty()) {
        throw new IllegalArgumentException(text);
      }
      routes.add(new Route(pins, words));
    }
    return routes;
  }
}
