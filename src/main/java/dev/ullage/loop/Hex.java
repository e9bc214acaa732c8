package dev.ullage.loop;

import java.util.Locale;

/** Bytes as data sheets write them. */
final class Hex {
  private Hex() {}

  /** Two digits or more, such as {@code 0x0A}. */
  static String shown(long value) {
    String digits = Long.toHexString(value).toUpperCase(Locale.ROOT);
    return digits.length() < 2 ? "0x0" + digits : "0x" + digits;
  }
}
