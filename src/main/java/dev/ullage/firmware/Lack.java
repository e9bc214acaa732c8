package dev.ullage.firmware;

/**
 * Something that a target does not have and the loop cannot do without.
 *
 * @param resource {@code pin}, {@code peripheral}, {@code clock} or {@code voltage}
 * @param reason one sentence without a full stop
 */
public record Lack(String resource, String reason) {}
