package dev.ullage.firmware;

/**
 * Static memory whose size the plan decides.
 *
 * @param name what a reader calls it: {@code averaging window}
 * @param module the module that owns it
 * @param symbol its name in the emitted C
 * @param bytes how long it is
 */
public record Buffer(String name, String module, String symbol, int bytes) {}
