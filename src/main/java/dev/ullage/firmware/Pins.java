package dev.ullage.firmware;

import dev.ullage.loop.Board.Role;
import dev.ullage.target.Pin;
import dev.ullage.target.Target;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/** Hands out pins: what the user named, what hardware dictates, then what is left. */
final class Pins {
  private final Target target;
  private final Map<Role, String> named;
  private final boolean outsideClock;
  private final Map<Role, Pin> given = new EnumMap<>(Role.class);

  Pins(Target target, Map<Role, String> named, boolean outsideClock) {
    this.target = target;
    this.named = named;
    this.outsideClock = outsideClock;
  }

  /** A pin that hardware dictates. */
  void dictate(Role role, String pin, String why) {
    if (named.containsKey(role) && !named.get(role).equals(pin)) {
      throw new Lacking(
          "pin",
          "the loop file has "
              + word(role)
              + " on "
              + named.get(role)
              + ", but "
              + why
              + " is on "
              + pin);
    }
    give(role, pin(pin));
  }

  /** Any pin that will do. */
  void choose(Role role, String what, Predicate<Pin> suits) {
    if (named.containsKey(role)) {
      Pin pin = pin(named.get(role));
      if (!suits.test(pin)) {
        throw new Lacking(
            "pin",
            "the loop file has " + word(role) + " on " + pin.name() + ", which is not " + what);
      }
      give(role, pin);
      return;
    }
    Optional<Pin> free =
        target.family().pins().values().stream()
            .filter(pin -> isFree(pin) && suits.test(pin))
            .findFirst();
    give(
        role,
        free.orElseThrow(
            () ->
                new Lacking("pin", "no pin is left for " + word(role) + ", which needs " + what)));
  }

  Map<Role, Pin> given() {
    return given;
  }

  /** Neither taken, nor named for something, nor kept for reset, debugging or a clock. */
  boolean isFree(Pin pin) {
    return !taken(pin) && !reserved(pin);
  }

  boolean isNamed(Role role) {
    return named.containsKey(role);
  }

  private boolean reserved(Pin pin) {
    return pin.roles().contains("reset")
        || pin.roles().contains("debug")
        || outsideClock && (pin.roles().contains("crystal") || pin.roles().contains("clock-in"))
        || named.containsValue(pin.name());
  }

  private boolean taken(Pin pin) {
    return given.values().stream().anyMatch(other -> other.name().equals(pin.name()));
  }

  private void give(Role role, Pin pin) {
    given.entrySet().stream()
        .filter(entry -> entry.getValue().name().equals(pin.name()))
        .findFirst()
        .ifPresent(
            entry -> {
              throw new Lacking(
                  "pin",
                  pin.name() + " is wanted for " + word(entry.getKey()) + " and for " + word(role));
            });
    given.put(role, pin);
  }

  private Pin pin(String name) {
    Pin pin = target.family().pins().get(name);
    if (pin == null) {
      throw new Lacking("pin", "the part has no pin " + name);
    }
    return pin;
  }

  private static String word(Role role) {
    return role.name().toLowerCase(java.util.Locale.ROOT);
  }
}
