package dev.ullage.target;

import java.util.Map;
import java.util.SortedMap;

/**
 * An analog-to-digital converter.
 *
 * @param bits of a result
 * @param prescale clock divider to the C text that selects it
 * @param clockMaxHz fastest converter clock with full resolution
 * @param registers what else the templates want to know
 */
public record Converter(
    int bits, SortedMap<Integer, String> prescale, int clockMaxHz, Map<String, String> registers) {
  public Converter {
    registers = Map.copyOf(registers);
  }
}
