package dev.ullage.firmware;

import java.math.BigInteger;

/**
 * A C integer type, as narrow as the numbers it must hold allow.
 *
 * @param bits 8, 16 or 32
 */
public record Whole(boolean signed, int bits) {

  /** Something that no 32-bit integer holds. */
  public static final class TooWide extends RuntimeException {
    private static final long serialVersionUID = 1;

    TooWide(BigInteger low, BigInteger high) {
      super("numbers from " + low + " to " + high + " do not fit 32 bits");
    }
  }

  /** The narrowest type of at least {@code leastBits} that holds everything from low to high. */
  static Whole holding(BigInteger low, BigInteger high, int leastBits) {
    for (int bits = 8; bits <= 32; bits *= 2) {
      Whole type = new Whole(low.signum() < 0, bits);
      if (bits >= leastBits && type.holds(low) && type.holds(high)) {
        return type;
      }
    }
    throw new TooWide(low, high);
  }

  static Whole holding(long low, long high, int leastBits) {
    return holding(BigInteger.valueOf(low), BigInteger.valueOf(high), leastBits);
  }

  private boolean holds(BigInteger value) {
    return signed ? value.bitLength() < bits : value.signum() >= 0 && value.bitLength() <= bits;
  }

  /** Bytes of one. */
  public int bytes() {
    return bits / 8;
  }

  /** Its C99 name: {@code int16_t}. */
  public String cName() {
    return (signed ? "int" : "uint") + bits + "_t";
  }

  /** Its short name, as traits have it: {@code s16}. */
  @Override
  public String toString() {
    return (signed ? "s" : "u") + bits;
  }

  /** A literal of this type. The lowest 32-bit number has no literal of its own in C. */
  public String literal(long value) {
    if (signed && bits == 32 && value == Integer.MIN_VALUE) {
      return "(-2147483647L - 1)";
    }
    String suffix = (signed ? "" : "u") + (bits == 32 ? "L" : "");
    String digits = value + suffix.toUpperCase(java.util.Locale.ROOT);
    return value < 0 ? "(" + digits + ")" : digits;
  }
}
