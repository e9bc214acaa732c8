package dev.ullage.target;

/**
 * A hardware serial port, by its register names.
 *
 * @param status, empty register and bit that say that a byte can be written
 * @param doubleSpeed bit of {@code status} that halves the divider
 * @param control, transmit register and bit that switch the sender on
 * @param data where bytes go
 * @param baudLow, baudHigh the divider's registers
 * @param pin the pin that sends
 */
public record SerialPort(
    String name,
    String status,
    String empty,
    String doubleSpeed,
    String control,
    String transmit,
    String data,
    String baudLow,
    String baudHigh,
    String pin) {}
