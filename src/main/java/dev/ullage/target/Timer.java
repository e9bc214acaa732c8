package dev.ullage.target;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;

/**
 * A timer that counts to a top value and starts over.
 *
 * @param bits of the counter
 * @param mode register to bits that make it start over at the top, clock select left out; where the
 *     port's templates want to know
 * @param clockSelect prescaler to the C text that selects it: {@code 64 -> "(1 << CS01)"}
 * @param toggle how it makes a tone on a pin
 * @param registers what else the templates want to know
 */
public record Timer(
    String name,
    int bits,
    Map<String, String> mode,
    SortedMap<Integer, String> clockSelect,
    Optional<Toggle> toggle,
    Map<String, String> registers) {

  public Timer {
    mode = Collections.unmodifiableMap(new LinkedHashMap<>(mode));
    registers = Map.copyOf(registers);
  }

  /**
   * A tone on a pin by hardware.
   *
   * @param routes the pin
   * @param rounds times that the timer counts to its top in one wave: 2 where a match toggles
   */
  public record Toggle(List<Route> routes, int rounds, Map<String, String> registers) {
    public Toggle {
      routes = List.copyOf(routes);
      registers = Map.copyOf(registers);
    }
  }
}
