package dev.ullage.wiring;

import dev.ullage.target.Pin;
import java.util.Collection;
import java.util.Optional;

/**
 * A pin whose level at a reset chooses what the part starts, and that is a plain pin otherwise.
 *
 * @param low whether low starts the program; else high does
 */
record BootPin(Pin pin, boolean low) {
  private static final String LOW = "boot-low";
  private static final String HIGH = "boot-high";

  /**
   * The one of a package: none where a pin has nothing else to do, and where several could be it,
   * the last of the family that is led out.
   *
   * @param family its pins, in their order
   * @param ledOut names of the package's pins
   */
  static Optional<BootPin> of(Collection<Pin> family, Collection<String> ledOut) {
    if (ledOut.contains("BOOT0")) {
      return Optional.empty();
    }
    return family.stream()
        .filter(pin -> pin.roles().contains(LOW) || pin.roles().contains(HIGH))
        .filter(pin -> ledOut.contains(pin.name()))
        .reduce((first, second) -> second)
        .map(pin -> new BootPin(pin, pin.roles().contains(LOW)));
  }

  /** The level that starts the program. */
  String level() {
    return low ? "low" : "high";
  }

  /** What leads to it where it is nothing else. */
  String leadsTo() {
    return low
        ? "ground, so that the part starts from its flash"
        : "nothing: low at a reset starts the boot loader";
  }
}
