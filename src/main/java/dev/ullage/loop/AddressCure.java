package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * What most likely helps against a wrong bus address. Source: NXP UM10204 Rev. 7.0, section 3.1.10
 * (the address stands above the read/write bit) and 3.1.12, table 4 (reserved addresses).
 */
final class AddressCure {
  private AddressCure() {}

  static Optional<String> of(BigDecimal number) {
    if (number.scale() != 0
        || number.signum() < 0
        || number.compareTo(BigDecimal.valueOf(0xFF)) > 0) {
      return Optional.empty();
    }
    int address = number.intValueExact();
    String shifted = "it looks like the 8-bit form of " + Hex.shown(address >> 1);
    if (address < 0x08) {
      return Optional.of(Hex.shown(address) + " is reserved for " + reservedFor(address));
    }
    if (address < 0x80) {
      return Optional.of(
          shifted + "; " + Hex.shown(address) + " itself is reserved for " + reservedFor(address));
    }
    return address >> 1 <= 0x77 ? Optional.of(shifted) : Optional.empty();
  }

  private static String reservedFor(int address) {
    return switch (address) {
      case 0x00 -> "the general call";
      case 0x01 -> "CBUS";
      case 0x02 -> "another bus format";
      case 0x03 -> "future purposes";
      case 0x04, 0x05, 0x06, 0x07 -> "the high-speed mode";
      case 0x78, 0x79, 0x7A, 0x7B -> "10-bit addressing";
      default -> "the device identity";
    };
  }
}
