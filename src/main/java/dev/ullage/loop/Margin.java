package dev.ullage.loop;

/** What must stay free: a share of the flash, and bytes of RAM. */
public record Margin(int flashPercent, int ramBytes) {}
