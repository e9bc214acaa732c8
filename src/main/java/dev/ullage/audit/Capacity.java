package dev.ullage.audit;

import dev.ullage.target.Target;
import java.util.OptionalInt;

/** Sizes of the memories, in bytes; empty where nothing says them. */
public record Capacity(OptionalInt flash, OptionalInt ram, OptionalInt eeprom) {
  /** Nothing is known. */
  public static final Capacity UNKNOWN =
      new Capacity(OptionalInt.empty(), OptionalInt.empty(), OptionalInt.empty());

  static Capacity of(Target target) {
    return new Capacity(
        OptionalInt.of(target.flashBytes()),
        OptionalInt.of(target.ramBytes()),
        OptionalInt.of(target.eepromBytes()));
  }
}
