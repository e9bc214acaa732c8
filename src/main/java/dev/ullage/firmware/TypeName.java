package dev.ullage.firmware;

/** A C type that the plan has chosen, and why it is that wide. */
public record TypeName(String name, Whole type, String why) {}
