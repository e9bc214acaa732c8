package dev.ullage.wiring;

import dev.ullage.firmware.Clocking;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.target.Pin;
import dev.ullage.wiring.PinUse.Kind;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What a plan does with each pin: the loop's, those of the data sheet's that must be left, free.
 */
final class Uses {
  private static final String CLOCK_IN = "clock-in";
  private static final String CRYSTAL = "crystal";
  private static final List<String> RESERVED = List.of("reset", "debug");
  private static final Map<Role, String> LABELS =
      Map.of(
          Role.SDA, "bus data",
          Role.SCL, "bus clock",
          Role.KNOB, "knob",
          Role.LAMP, "lamp",
          Role.SOUNDER, "sounder",
          Role.RELAY, "relay",
          Role.MUTE, "mute",
          Role.TRANSMIT, "report");

  private final Firmware firmware;
  private final RoleWords words;
  private final Terminals terminals;
  private final Optional<BootPin> boot;

  /**
   * @param ledOut names of the package's pins
   */
  Uses(Firmware firmware, Collection<String> ledOut) {
    this.firmware = firmware;
    this.boot = BootPin.of(firmware.target().family().pins().values(), ledOut);
    this.words = new RoleWords(firmware.loop());
    this.terminals = new Terminals(firmware);
  }

  PinUse of(String number, String name) {
    Optional<Role> role =
        firmware.pins().entrySet().stream()
            .filter(each -> each.getValue().name().equals(name))
            .map(Map.Entry::getKey)
            .findFirst();
    Optional<Pin> pin = Optional.ofNullable(firmware.target().family().pins().get(name));
    if (role.isPresent()) {
      return role(number, pin.orElseThrow(), role.get());
    }
    return pin.map(port -> port(number, port)).orElseGet(() -> terminals.of(number, name));
  }

  private PinUse role(String number, Pin pin, Role role) {
    String also =
        Stream.concat(
                pin.roles().stream().filter(this::isReserved),
                boot(pin)
                    .map(it -> "choosing what is started, " + it.level() + " at a reset")
                    .stream())
            .collect(Collectors.joining(" and "));
    String leadsTo = words.of(role) + (also.isEmpty() ? "" : "; the pin is also for " + also);
    boolean named = firmware.loop().board().pins().containsKey(role);
    return new PinUse(
        number, pin.name(), Kind.ROLE, Optional.of(role), LABELS.get(role), leadsTo, named);
  }

  private Optional<BootPin> boot(Pin pin) {
    return boot.filter(it -> it.pin().name().equals(pin.name()));
  }

  private boolean isReserved(String use) {
    return RESERVED.contains(use) || isClock(use) && isClockOutside(firmware);
  }

  private static boolean isClock(String use) {
    return use.equals(CRYSTAL) || use.equals(CLOCK_IN);
  }

  /** A pin of a port that the loop has no use for. */
  private PinUse port(String number, Pin pin) {
    if (pin.roles().contains("reset")) {
      return terminals.reset(number, pin.name());
    }
    if (pin.roles().contains("debug")) {
      return terminals.debug(number, pin.name());
    }
    if (pin.roles().stream().anyMatch(Uses::isClock) && isClockOutside(firmware)) {
      boolean in = pin.roles().contains(CLOCK_IN);
      return pin.roles().contains(CRYSTAL)
          ? terminals.crystal(number, pin.name(), in)
          : plain(number, pin.name(), Kind.EXTRA, "clock in", terminals.clock());
    }
    return boot(pin)
        .map(
            it ->
                plain(number, pin.name(), it.low() ? Kind.EXTRA : Kind.KEPT, "boot", it.leadsTo()))
        .orElseGet(() -> plain(number, pin.name(), Kind.FREE, "free", "nothing"));
  }

  static PinUse plain(String number, String name, Kind kind, String label, String leadsTo) {
    return new PinUse(number, name, kind, Optional.empty(), label, leadsTo, false);
  }

  static boolean isClockOutside(Firmware firmware) {
    return firmware.clock().source() == Clocking.Source.OUTSIDE;
  }
}
