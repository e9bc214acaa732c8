package dev.ullage.target;

import java.util.SortedMap;

/**
 * An analog-to-digital converter, by its register names.
 *
 * @param bits of a result
 * @param select register of the multiplexer
 * @param reference bits in it that take the supply as reference; "0" for none
 * @param control, enable, start the register that runs it and its bits
 * @param result the 16-bit result register
 * @param prescale clock divider to bits in {@code control}
 * @param clockMaxHz fastest converter clock with full resolution
 */
public record Converter(
    int bits,
    String select,
    String reference,
    String control,
    String enable,
    String start,
    String result,
    SortedMap<Integer, String> prescale,
    int clockMaxHz) {}
