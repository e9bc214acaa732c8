package dev.ullage.target;

/** The data EEPROM, by its register names. {@code address} is the 8- or 16-bit address register. */
public record Eeprom(
    String control, String address, String data, String read, String write, String masterWrite) {}
