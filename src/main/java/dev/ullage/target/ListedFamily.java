package dev.ullage.target;

/**
 * Parts that one port could serve, once there is one.
 *
 * @param name {@code stm32c0}; the name of its file in the catalogue
 * @param core of all of them
 */
public record ListedFamily(String name, String title, String core) {}
