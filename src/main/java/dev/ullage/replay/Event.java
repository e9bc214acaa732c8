package dev.ullage.replay;

/**
 * The alarm goes on or off.
 *
 * @param reading number of the reading that it follows, from 1
 * @param timeMs when that reading began, from the first one
 */
public record Event(int reading, long timeMs, boolean alarm) {}
