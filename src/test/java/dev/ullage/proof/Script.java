package dev.ullage.proof;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/** What happens to a simulated board: readings, and events between them. */
final class Script {
  private final List<String> lines = new ArrayList<>();
  private int readings;

  /** A line of the bus that is held low from outside. */
  enum Line {
    DATA,
    CLOCK
  }

  /** The lines that {@code board.c} understands. */
  List<String> lines() {
    return List.copyOf(lines);
  }

  /** How many readings there are in it, failed ones included. */
  int readings() {
    return readings;
  }

  /** The next reading gives these bytes. */
  Script frame(int... bytes) {
    return reading("frame " + hex(bytes));
  }

  /** The sensor does not acknowledge its address. */
  Script deaf() {
    return reading("nack");
  }

  /** The sensor acknowledges its address, but not what is written to it. */
  Script refuses() {
    return reading("refuse");
  }

  /** The middle of the potentiometer; the supply is 5000 mV. */
  Script knob(int millivolts) {
    return event("knob " + millivolts);
  }

  /** The mute button goes down, and up again so long after that. */
  Script press(int ms) {
    return event("press").event("wait " + ms).event("release");
  }

  /** Nothing happens for so long. */
  Script pause(int ms) {
    return event("wait " + ms);
  }

  /** From now on the sensor holds the clock for so long after each byte that it takes. */
  Script stretch(int ns) {
    return event("stretch " + ns);
  }

  /** The sensor was cut off while it was sending zeros, and holds the data line. */
  Script cutOff() {
    return event("midbyte");
  }

  Script hold(Line line, int ms) {
    return event("hold " + line.name().toLowerCase(Locale.ROOT) + " " + ms);
  }

  /** What the EEPROM holds, from its first byte on. */
  Script eeprom(int... bytes) {
    return event("eeprom " + hex(bytes));
  }

  /** The power fails in the n-th change of the flash from now on, and comes back. */
  Script cut(int n) {
    return event("cut " + n);
  }

  /** The same so many times. */
  Script times(int count, Consumer<Script> step) {
    for (int i = 0; i < count; i++) {
      step.accept(this);
    }
    return this;
  }

  private Script reading(String line) {
    readings++;
    return event(line);
  }

  private Script event(String line) {
    lines.add(line);
    return this;
  }

  private static String hex(int... bytes) {
    return Arrays.stream(bytes)
        .mapToObj(each -> String.format("%02X", each & 0xFF))
        .collect(Collectors.joining(" "));
  }
}
