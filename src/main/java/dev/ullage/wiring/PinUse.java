package dev.ullage.wiring;

import dev.ullage.loop.Board.Role;
import java.util.Optional;

/**
 * One pin of a package, and what it is for.
 *
 * @param number by which the data sheet counts it: {@code 7}, or {@code pad} for the pad below
 * @param name the data sheet's
 * @param kind what sort of use it is
 * @param role what it is in the loop, where it is something
 * @param label one or two words, for a drawing
 * @param leadsTo what is soldered to it, in words without a full stop
 * @param named whether the loop file says that it is this pin
 */
public record PinUse(
    String number,
    String name,
    Kind kind,
    Optional<Role> role,
    String label,
    String leadsTo,
    boolean named) {

  /** What sort of use a pin has. */
  public enum Kind {
    /** One of the loop's. */
    ROLE,
    SUPPLY,
    GROUND,
    /** Needs something that is not the loop's: a crystal, a capacitor, a fixed level. */
    EXTRA,
    /** Could be something, but is left alone: reset, debugger. */
    KEPT,
    FREE,
    /** Not connected inside. */
    NONE
  }

  PinUse leadingTo(String words) {
    return new PinUse(number, name, kind, role, label, words, named);
  }

  /** What is soldered to it, and whether the loop file asked for that. */
  public String words() {
    return named ? leadsTo + " (pin named in the loop file)" : leadsTo;
  }
}
