package dev.ullage.loop;

/**
 * How long one reading occupies a two-wire bus: nine clocks for each byte, eight of data and one of
 * acknowledgement, and one for each START, repeated START and STOP. Source: NXP UM10204 Rev. 7.0,
 * sections 3.1.5 and 3.1.10; the clock for a condition is common practice.
 *
 * @param bytes on the wire, with the address bytes
 * @param conditions STARTs, repeated STARTs and STOPs
 * @param speedHz of the bus clock
 */
public record BusTime(int bytes, int conditions, int speedHz) {
  private static final int CLOCKS_PER_BYTE = 9;
  private static final long MICROSECONDS = 1_000_000;

  /** One reading, at the speed that the sensor asks for. */
  public static BusTime of(Sensor sensor) {
    int read = 1 + sensor.frame().bytes();
    if (sensor.ask().isEmpty()) {
      return new BusTime(read, 2, sensor.speedHz());
    }
    int write = 1 + sensor.ask().size();
    return new BusTime(write + read, sensor.restart() ? 3 : 4, sensor.speedHz());
  }

  /** Clock pulses of the bytes alone. */
  public int byteClocks() {
    return CLOCKS_PER_BYTE * bytes;
  }

  /** Rounded up. */
  public long microseconds() {
    long clocks = byteClocks() + conditions;
    return (clocks * MICROSECONDS + speedHz - 1) / speedHz;
  }
}
