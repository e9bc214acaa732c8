package dev.ullage.report;

import dev.ullage.target.BusPort;
import dev.ullage.target.Part;
import java.math.BigDecimal;
import java.util.OptionalInt;

/** Facts of a target in words. */
final class Facts {
  /** Nobody has stated it, which is neither none nor 0. */
  static final String UNKNOWN = "?";

  private static final int MEBI = 1 << 20;

  private Facts() {}

  /** {@code 1.8-5.5}, in volts. */
  static String supply(Part part) {
    return part.rating()
        .map(r -> r.supplyMin().toPlainString() + "-" + r.supplyMax().toPlainString())
        .orElse(UNKNOWN);
  }

  /** The highest clock, in megahertz. */
  static String clock(Part part) {
    return part.rating().map(rating -> megahertz(rating.maxHz())).orElse(UNKNOWN);
  }

  /** {@code 9.6} for 9,600,000 Hz. */
  static String megahertz(long hertz) {
    return BigDecimal.valueOf(hertz, 6).stripTrailingZeros().toPlainString();
  }

  /** Data EEPROM in bytes. */
  static String eeprom(Part part) {
    return part.eeprom().isPresent() ? bytes(part.eeprom()) : UNKNOWN;
  }

  /** What there is for a two-wire bus. */
  static String bus(Part part) {
    return part.busKind().map(Facts::bus).orElse(UNKNOWN);
  }

  private static String bus(BusPort.Kind kind) {
    return switch (kind) {
      case NONE -> "none";
      case USI -> "USI";
      case TARGET_ONLY -> "addr.";
      case TARGET_ONLY_AND_USI -> "USI";
      case CONTROLLER -> "TWI";
      case SHARED -> "shared";
    };
  }

  /** A size in bytes; what the part does not have itself is a dash. */
  static String bytes(OptionalInt size) {
    return size.isPresent() ? "" + size.getAsInt() : "-";
  }

  /** The same, with whole KiB as {@code 8K} and MiB as {@code 2M} to keep a column narrow. */
  static String capacity(OptionalInt size) {
    int bytes = size.orElse(0);
    if (bytes >= MEBI && bytes % MEBI == 0) {
      return bytes / MEBI + "M";
    }
    return bytes >= 1024 && bytes % 512 == 0
        ? bytes / 1024 + (bytes % 1024 == 0 ? "K" : ".5K")
        : bytes(size);
  }

  /** What is left, in whole KiB or MiB where it would have more than so many characters. */
  static String left(int bytes, int most) {
    String exact = String.valueOf(bytes);
    String kibi = Math.floorDiv(bytes, 1024) + "K";
    if (exact.length() <= most) {
      return exact;
    }
    return kibi.length() <= most ? kibi : Math.floorDiv(bytes, MEBI) + "M";
  }
}
