package dev.ullage.target;

import dev.ullage.formula.Recipe;
import java.util.List;
import java.util.Map;

/**
 * A hardware serial port.
 *
 * @param routes the pin that sends
 * @param rate from {@code clock} in Hz and {@code baud} to {@code SERIAL_DIVIDER} and {@code hz},
 *     the rate that comes out
 * @param registers what else the templates want to know
 */
public record SerialPort(
    String name, List<Route> routes, Recipe rate, Map<String, String> registers) {
  public SerialPort {
    routes = List.copyOf(routes);
    registers = Map.copyOf(registers);
  }
}
