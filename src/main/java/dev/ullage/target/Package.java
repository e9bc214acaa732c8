package dev.ullage.target;

import java.util.List;

/**
 * A package.
 *
 * @param name {@code PDIP-8}
 * @param pins the function pins (or {@code VCC}, {@code GND}, {@code -}) in the order of their
 *     numbers, from pin 1 on
 * @param balls where it has no numbers but a grid of balls: the place of each pin, {@code B3}
 */
public record Package(String name, List<String> pins, List<String> balls) {

  public Package {
    pins = List.copyOf(pins);
    balls = List.copyOf(balls);
    if (!balls.isEmpty() && balls.size() != pins.size()) {
      throw new IllegalArgumentException(name);
    }
  }

  /** A package whose pins are numbered from 1 on. */
  public Package(String name, List<String> pins) {
    this(name, pins, List.of());
  }

  /** By what the data sheet counts a pin: {@code 7}, or {@code B3} of a grid of balls. */
  public String number(int index) {
    return balls.isEmpty() ? String.valueOf(index + 1) : balls.get(index);
  }
}
