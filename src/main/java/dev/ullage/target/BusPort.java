package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The hardware for a two-wire bus.
 *
 * @param kind what it can be
 * @param controller where it can be a controller
 */
public record BusPort(Kind kind, Optional<Controller> controller) {

  /** What the hardware can be on the bus. */
  public enum Kind {
    /** Nothing there. */
    NONE,
    /** A universal serial interface: half of the work is left to the program. */
    USI,
    /** Can only be addressed by others. */
    TARGET_ONLY,
    /** As above, and a universal serial interface beside it. */
    TARGET_ONLY_AND_USI,
    /** Can be a controller. */
    CONTROLLER,
    /** Serial blocks, each of which can be a controller or a serial port, not both at once. */
    SHARED
  }

  /**
   * A controller that the port can drive.
   *
   * @param routes its data pin, then its clock pin
   * @param timing from {@code clock} and {@code speed} in Hz and the least times {@code low_us},
   *     {@code high_us}, {@code start_us} of the bus mode to {@code hz} and, as they come out,
   *     {@code real_low_us} and {@code real_high_us}
   * @param registers what else the templates want to know
   */
  public record Controller(List<Route> routes, Recipe timing, Map<String, String> registers) {
    public Controller {
      routes = List.copyOf(routes);
      registers = Map.copyOf(registers);
    }
  }
}
