package dev.ullage.target;

import java.util.Map;

/**
 * Where settings are kept while the power is off.
 *
 * @param inFlash whether that is a page of program memory, and not an EEPROM
 * @param registers what the templates want to know of it
 */
public record Keeping(boolean inFlash, Map<String, String> registers) {
  public Keeping {
    registers = Map.copyOf(registers);
  }
}
