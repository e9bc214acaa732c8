package dev.ullage.loop;

import java.util.List;

/**
 * How a reading is asked for and what comes back.
 *
 * @param address 7-bit bus address
 * @param speedHz the fastest clock that the bus may have
 * @param ask bytes written before the read; empty for none
 * @param restart true for a repeated START between ask and read, false for STOP then START
 * @param waitMs milliseconds between ask and read
 * @param frozenAfter readings in a row without any change that count as a fault; 0 for never
 */
public record Sensor(
    Bus bus,
    int address,
    int speedHz,
    List<Integer> ask,
    boolean restart,
    int waitMs,
    int frozenAfter,
    Frame frame,
    Scale scale) {

  public Sensor {
    ask = List.copyOf(ask);
  }

  /** The kind of bus that the sensor hangs on. */
  public enum Bus {
    I2C,
    SPI,
    ONEWIRE,
    ANALOG
  }
}
