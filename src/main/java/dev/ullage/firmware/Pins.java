package dev.ullage.firmware;

import dev.ullage.loop.Board.Role;
import dev.ullage.target.Pin;
import dev.ullage.target.Route;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Predicate;

/** Hands out pins: what the user named, what hardware dictates, then what is left. */
final class Pins {
  private final List<Pin> all;
  private final Map<Role, String> named;
  private final boolean outsideClock;
  private final Map<Role, Pin> given = new EnumMap<>(Role.class);

  /**
   * @param all in the order in which they are handed out
   * @param named those that the user wants
   * @param outsideClock whether a clock takes its own pins
   */
  Pins(List<Pin> all, Map<Role, String> named, boolean outsideClock) {
    this.all = all;
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

  /**
   * The first route whose pins the package has, and that takes nothing from another role.
   *
   * @param roles of the route's pins, in their order
   */
  Route lead(List<Role> roles, List<Route> routes, String why) {
    List<Route> there = routes.stream().filter(this::isThere).toList();
    Route route =
        there.stream()
            .filter(each -> isOpen(roles, each))
            .findFirst()
            .orElseGet(
                () ->
                    there.stream()
                        .findFirst()
                        .orElseThrow(() -> new Lacking("pin", "no pin of the package has " + why)));
    for (int i = 0; i < roles.size(); i++) {
      String pin = route.pins().get(i);
      if (pin.equals(Route.ANY)) {
        choose(roles.get(i), "a plain pin", any -> true);
      } else {
        dictate(roles.get(i), pin, why);
      }
    }
    return route;
  }

  private boolean isThere(Route route) {
    return route.pins().stream()
        .allMatch(
            name -> name.equals(Route.ANY) || all.stream().anyMatch(p -> p.name().equals(name)));
  }

  private boolean isOpen(List<Role> roles, Route route) {
    for (int i = 0; i < roles.size(); i++) {
      if (route.pins().get(i).equals(Route.ANY)) {
        continue;
      }
      Pin pin = pin(route.pins().get(i));
      String own = named.get(roles.get(i));
      if (own == null ? !isFree(pin) : !own.equals(pin.name()) || taken(pin)) {
        return false;
      }
    }
    return true;
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
    Optional<Pin> free = all.stream().filter(pin -> isFree(pin) && suits.test(pin)).findFirst();
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

  List<Pin> all() {
    return all;
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
    return all.stream()
        .filter(pin -> pin.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new Lacking("pin", "the part has no pin " + name));
  }

  private static String word(Role role) {
    return role.name().toLowerCase(java.util.Locale.ROOT);
  }
}
