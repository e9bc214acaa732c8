package dev.ullage.target;

import java.util.List;

/**
 * A package.
 *
 * @param name {@code PDIP-8}
 * @param pins the function pins (or {@code VCC}, {@code GND}, {@code -}) by number, from pin 1 on
 */
public record Package(String name, List<String> pins) {

  public Package {
    pins = List.copyOf(pins);
  }
}
