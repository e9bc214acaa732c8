package dev.ullage.target;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Targets that share one port: registers, start-up, pins.
 *
 * @param name {@code avr-tinyx5}; the name of its file in the catalogue
 * @param ports folders of templates that it is emitted from: of each file the first that has it
 * @param pins by their data-sheet name ({@code PB0}), in the order in which they are handed out
 * @param timers that can count a period and start over (clear on compare match)
 * @param busPort what there is for a two-wire bus
 */
public record Family(
    String name,
    String title,
    List<String> ports,
    Map<String, Pin> pins,
    List<Timer> timers,
    Optional<Converter> converter,
    Optional<SerialPort> serialPort,
    BusPort busPort,
    Optional<Keeping> keeping,
    Watchdog watchdog,
    Sleep sleep) {

  public Family {
    pins = java.util.Collections.unmodifiableMap(new java.util.LinkedHashMap<>(pins));
    ports = List.copyOf(ports);
    timers = List.copyOf(timers);
  }
}
