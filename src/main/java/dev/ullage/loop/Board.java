package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * What surrounds the part.
 *
 * @param clockHz the part's clock; empty for what the part runs at as it leaves the factory
 * @param pins pin names of the data sheet by role; what is not named is chosen
 * @param circuit what hangs on the part, and what feeds it
 */
public record Board(
    Optional<BigDecimal> supplyV,
    OptionalLong clockHz,
    int pullUpOhm,
    int busCapacitancePf,
    Map<Role, String> pins,
    Circuit circuit) {

  public Board {
    pins = Map.copyOf(pins);
  }

  /** The same with another clock and other pins. */
  public Board with(OptionalLong clock, Map<Role, String> otherPins) {
    return new Board(supplyV, clock, pullUpOhm, busCapacitancePf, otherPins, circuit);
  }

  /** What a pin is for. */
  public enum Role {
    SDA,
    SCL,
    KNOB,
    LAMP,
    SOUNDER,
    RELAY,
    MUTE,
    TRANSMIT
  }
}
