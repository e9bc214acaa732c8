package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.Optional;

/**
 * Numbers as YAML 1.2 writes them, read exactly. Texts of any length and exponents of any size take
 * no time: what is longer than a number of ours can be is no number.
 */
final class Numbers {
  private static final int MAX_WHOLE_DIGITS = 15;
  private static final int MAX_CHARACTERS = 32;
  private static final int MAX_EXPONENT_DIGITS = 2;

  private Numbers() {}

  /** Decimal, {@code 0x} hexadecimal or {@code 0o} octal. */
  static Optional<Long> whole(String text) {
    if (text.startsWith("0x")) {
      return digits(text.substring(2), 16);
    }
    if (text.startsWith("0o")) {
      return digits(text.substring(2), 8);
    }
    if (text.startsWith("-")) {
      return digits(text.substring(1), 10).map(Math::negateExact);
    }
    return digits(text.startsWith("+") ? text.substring(1) : text, 10);
  }

  private static Optional<Long> digits(String text, int base) {
    if (text.isEmpty() || text.length() > MAX_WHOLE_DIGITS) {
      return Optional.empty();
    }
    long value = 0;
    for (int i = 0; i < text.length(); i++) {
      int digit = text.charAt(i) < 128 ? Character.digit(text.charAt(i), base) : -1;
      if (digit < 0) {
        return Optional.empty();
      }
      value = value * base + digit;
    }
    return Optional.of(value);
  }

  /** A number with or without a fraction or an exponent, without trailing zeros. */
  static Optional<BigDecimal> decimal(String text) {
    if (looksDecimal(text)) {
      return Optional.of(plain(new BigDecimal(text)));
    }
    return whole(text).map(BigDecimal::valueOf);
  }

  /** The same value in its one form: no trailing zeros, no exponent. */
  static BigDecimal plain(BigDecimal value) {
    BigDecimal stripped = value.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }

  private static boolean looksDecimal(String text) {
    if (text.length() > MAX_CHARACTERS) {
      return false;
    }
    int at = text.startsWith("-") || text.startsWith("+") ? 1 : 0;
    int point = afterDigits(text, at);
    int end = point;
    if (text.startsWith(".", point)) {
      end = afterDigits(text, point + 1);
    }
    boolean hasDigits = end - at > (end > point ? 1 : 0);
    return hasDigits && (end == text.length() || isExponent(text, end));
  }

  private static boolean isExponent(String text, int at) {
    if (text.charAt(at) != 'e' && text.charAt(at) != 'E') {
      return false;
    }
    int first = text.startsWith("-", at + 1) || text.startsWith("+", at + 1) ? at + 2 : at + 1;
    int count = text.length() - first;
    return afterDigits(text, first) == text.length() && 0 < count && count <= MAX_EXPONENT_DIGITS;
  }

  private static int afterDigits(String text, int at) {
    int end = at;
    while (end < text.length() && '0' <= text.charAt(end) && text.charAt(end) <= '9') {
      end++;
    }
    return end;
  }
}
