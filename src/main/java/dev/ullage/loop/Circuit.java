package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * What hangs on the part, and what feeds it: no byte of the firmware depends on it, only the wiring
 * does.
 *
 * @param supply what feeds the board
 * @param batteryMah what a battery holds; empty for a usual one of its kind
 * @param sensorV supply of the sensor, in V; empty where it shares that of the part
 * @param sensorMa what the sensor takes, in mA
 * @param stretchUs how long the sensor holds the clock after a byte, at most
 * @param lampV, lampMa forward voltage of the lamp and the current that is wanted
 * @param sounderMa, relayMa what the sounder and the relay's coil take
 */
public record Circuit(
    Supply supply,
    OptionalInt batteryMah,
    Optional<BigDecimal> sensorV,
    BigDecimal sensorMa,
    int stretchUs,
    BigDecimal lampV,
    BigDecimal lampMa,
    BigDecimal sounderMa,
    BigDecimal relayMa) {

  /** Where nothing is said. */
  public static final Circuit USUAL =
      new Circuit(
          Supply.BENCH,
          OptionalInt.empty(),
          Optional.empty(),
          BigDecimal.ONE,
          0,
          BigDecimal.valueOf(2),
          BigDecimal.valueOf(5),
          BigDecimal.valueOf(15),
          BigDecimal.valueOf(70));

  /** What feeds the board. */
  public enum Supply {
    /** A supply that can give whatever is asked. */
    BENCH,
    /** A USB 2.0 port that nobody has configured. */
    USB,
    /** A lithium coin cell. */
    COIN_CELL,
    /** Cells that can give some hundred mA. */
    BATTERY
  }
}
