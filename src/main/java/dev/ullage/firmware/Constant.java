package dev.ullage.firmware;

/**
 * A number of the emitted firmware.
 *
 * @param name its macro
 * @param literal C text
 * @param why where it comes from, in words; may hold text from the loop file, so it is escaped
 */
public record Constant(String name, String literal, String why) {}
