package dev.ullage.target;

import java.util.Map;
import java.util.OptionalInt;
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

  /** The first divider that keeps the converter's clock within its limit. */
  public OptionalInt divider(long clockHz) {
    return prescale.keySet().stream()
        .filter(each -> clockHz / each <= clockMaxHz)
        .mapToInt(Integer::intValue)
        .findFirst();
  }
}
