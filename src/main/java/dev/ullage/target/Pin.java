package dev.ullage.target;

import java.util.List;
import java.util.OptionalInt;

/**
 * One pin.
 *
 * @param name as the data sheet has it: {@code PB0}
 * @param port its letter, or its digit; a blank where the part has one port only
 * @param bit its number in the port
 * @param number among all pins of the part, where a port handles pins by number; else that of the
 *     bit
 * @param reach which instructions reach its registers
 * @param converterChannel multiplexer value that selects it, where it is an analog input
 * @param roles other functions that the tool knows: {@code reset}, {@code crystal}, {@code
 *     clock-in}, {@code debug}, {@code sda}, {@code scl}, {@code transmit}; {@code boot-low} or
 *     {@code boot-high} where that level at a reset starts the program
 */
public record Pin(
    String name,
    char port,
    int bit,
    int number,
    Reach reach,
    OptionalInt converterChannel,
    List<String> roles) {

  public Pin {
    roles = List.copyOf(roles);
  }

  /** How far away the pin's registers are. */
  public enum Reach {
    /** Single-bit instructions: I/O address up to 0x1F. */
    BIT,
    /** Input and output instructions only: up to 0x3F. */
    IO,
    /** Loads and stores. */
    MEMORY,
    /** By its number, through functions that reach all pins alike. */
    NUMBER
  }
}
