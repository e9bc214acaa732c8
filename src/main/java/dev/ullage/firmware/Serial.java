package dev.ullage.firmware;

import dev.ullage.target.SerialPort;
import java.util.Optional;

/**
 * How report lines are sent.
 *
 * @param hardware the serial port; empty where the program moves a pin
 * @param divider the hardware's divider register, or turns of the delay loop of a bit
 * @param error what the rate is off by, as a fraction
 */
public record Serial(Optional<SerialPort> hardware, int divider, double error) {

  // Two per cent leaves the receiver the other half of what a frame of ten bits can bear (common
  // practice, no source).
  private static final double TOLERANCE = 0.02;

  // Clock cycles of a bit outside the delay loop, counted in the driver's assembly.
  static final int BIT_CYCLES = 9;
  private static final int LOOP_CYCLES = 3;

  static Serial of(Optional<SerialPort> hardware, long clockHz, int baud) {
    Serial serial =
        hardware.isPresent() ? divided(hardware, clockHz, baud) : counted(clockHz, baud);
    if (Math.abs(serial.error) > TOLERANCE) {
      throw new Lacking(
          "clock",
          baud
              + " baud from "
              + Clocking.megahertz(clockHz)
              + " is off by "
              + Decimal.of(100 * serial.error, 1)
              + " %, and more than 2 % is too much");
    }
    return serial;
  }

  private static Serial divided(Optional<SerialPort> port, long clockHz, int baud) {
    // Double speed: baud = clock / (8 * (UBRR + 1)); data sheets, "Baud Rate Generation".
    long divider = Math.round(clockHz / (8.0 * baud)) - 1;
    if (divider < 0 || divider > 4095) {
      return new Serial(port, 0, 1);
    }
    return new Serial(port, (int) divider, clockHz / (8.0 * (divider + 1)) / baud - 1);
  }

  private static Serial counted(long clockHz, int baud) {
    double cycles = (double) clockHz / baud;
    long loops = Math.round((cycles - BIT_CYCLES) / LOOP_CYCLES);
    if (loops < 1 || loops > 255) {
      return new Serial(Optional.empty(), 0, 1);
    }
    return new Serial(
        Optional.empty(), (int) loops, cycles / (BIT_CYCLES + LOOP_CYCLES * loops) - 1);
  }
}
