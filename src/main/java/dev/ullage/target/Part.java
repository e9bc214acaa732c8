package dev.ullage.target;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * A part of the catalogue: a {@link Target}, for which there is a port, or a {@link ListedPart}, of
 * which only the limits are known.
 *
 * <p>What nobody has stated is absent here. That is neither none nor 0.
 */
public sealed interface Part permits Target, ListedPart {

  /** Its own name in lower case: {@code attiny85}. */
  String name();

  /** Its name as its maker writes it: {@code ATtiny85}. */
  String title();

  /** Instruction set and ABI: {@code avr25}, {@code cortex-m0}, {@code rv32ec}. */
  String core();

  /** The family's name, which is that of its file. */
  String familyName();

  /** The family in words. */
  String familyTitle();

  /** Program memory in bytes; empty where it is a chip beside the part. */
  OptionalInt flash();

  /** Main static RAM in bytes. */
  int ram();

  /** Data EEPROM in bytes, 0 where there is none. */
  OptionalInt eeprom();

  /** What it can run at. */
  Optional<Rating> rating();

  /** What its hardware for a two-wire bus can be. */
  Optional<BusPort.Kind> busKind();

  /** The packages that it is sold in, as far as they are known. */
  List<String> packageNames();

  /**
   * Who says so, as {@code targets/SOURCES.md} names them, several with a blank between, by the key
   * that they vouch for; what only one says is not confirmed. Empty where that file speaks for the
   * family as a whole.
   */
  Map<String, String> sources();
}
