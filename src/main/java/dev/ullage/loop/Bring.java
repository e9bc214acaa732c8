package dev.ullage.loop;

/** What the user's own code or library will add, in bytes. */
public record Bring(int flashBytes, int ramBytes, int stackBytes) {}
