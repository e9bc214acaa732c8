package dev.ullage.formula;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.MathContext;

/**
 * An exact fraction, so that folding a threshold never rounds before it has to. Nearly all fit into
 * two {@code long}; those that do not go on in {@link BigInteger}.
 */
public final class Ratio {
  private static final BigInteger LEAST = BigInteger.valueOf(-Long.MAX_VALUE);
  private static final BigInteger MOST = BigInteger.valueOf(Long.MAX_VALUE);

  private final long top;
  private final long bottom;

  /** Over and under, where one of them is too large for a {@code long}; else null. */
  private final BigInteger[] wide;

  /** In lowest terms, {@code bottom} above zero. */
  private Ratio(long top, long bottom, BigInteger[] wide) {
    this.top = top;
    this.bottom = bottom;
    this.wide = wide;
  }

  /**
   * @throws ArithmeticException where {@code under} is zero
   */
  public static Ratio of(BigInteger over, BigInteger under) {
    if (under.signum() == 0) {
      throw overZero();
    }
    BigInteger divisor = over.gcd(under).multiply(BigInteger.valueOf(under.signum()));
    BigInteger least = over.divide(divisor);
    BigInteger below = under.divide(divisor);
    return isSmall(least) && isSmall(below)
        ? new Ratio(least.longValueExact(), below.longValueExact(), null)
        : new Ratio(0, 0, new BigInteger[] {least, below});
  }

  public static Ratio of(BigInteger whole) {
    return of(whole, BigInteger.ONE);
  }

  public static Ratio of(BigDecimal value) {
    BigInteger unscaled = value.unscaledValue();
    return value.scale() >= 0
        ? of(unscaled, BigInteger.TEN.pow(value.scale()))
        : of(unscaled.multiply(BigInteger.TEN.pow(-value.scale())));
  }

  public static Ratio of(long value) {
    return value == Long.MIN_VALUE ? of(BigInteger.valueOf(value)) : new Ratio(value, 1, null);
  }

  private static boolean isSmall(BigInteger number) {
    return number.compareTo(LEAST) >= 0 && number.compareTo(MOST) <= 0;
  }

  private static ArithmeticException overZero() {
    return new ArithmeticException("A fraction over zero.");
  }

  /** In lowest terms; neither is {@code Long.MIN_VALUE}. */
  private static Ratio small(long over, long under) {
    if (under == 0) {
      throw overZero();
    }
    long a = Math.abs(over);
    long b = Math.abs(under);
    while (a != 0) {
      long rest = b % a;
      b = a;
      a = rest;
    }
    long divisor = under < 0 ? -b : b;
    return new Ratio(over / divisor, under / divisor, null);
  }

  /** Whether the product is well inside a {@code long}, so that two such have a sum. */
  private static boolean fits(long one, long other) {
    long product = one * other;
    return Math.multiplyHigh(one, other) == product >> (Long.SIZE - 1)
        && Math.abs(product) < Long.MAX_VALUE / 2
        && product != Long.MIN_VALUE;
  }

  public BigInteger over() {
    return wide == null ? BigInteger.valueOf(top) : wide[0];
  }

  public BigInteger under() {
    return wide == null ? BigInteger.valueOf(bottom) : wide[1];
  }

  public Ratio plus(Ratio other) {
    if (areSmall(this, other)
        && fits(top, other.bottom)
        && fits(other.top, bottom)
        && fits(bottom, other.bottom)) {
      return small(top * other.bottom + other.top * bottom, bottom * other.bottom);
    }
    return of(
        over().multiply(other.under()).add(other.over().multiply(under())),
        under().multiply(other.under()));
  }

  public Ratio minus(Ratio other) {
    return plus(other.negated());
  }

  private Ratio negated() {
    return wide == null ? new Ratio(-top, bottom, null) : of(wide[0].negate(), wide[1]);
  }

  public Ratio times(Ratio other) {
    if (areSmall(this, other) && fits(top, other.top) && fits(bottom, other.bottom)) {
      return small(top * other.top, bottom * other.bottom);
    }
    return of(over().multiply(other.over()), under().multiply(other.under()));
  }

  /**
   * @throws ArithmeticException where the other is zero
   */
  public Ratio over(Ratio other) {
    if (areSmall(this, other) && fits(top, other.bottom) && fits(bottom, other.top)) {
      return small(top * other.bottom, bottom * other.top);
    }
    return of(over().multiply(other.under()), under().multiply(other.over()));
  }

  private static boolean areSmall(Ratio one, Ratio other) {
    return one.wide == null && other.wide == null;
  }

  public int sign() {
    return wide == null ? Long.signum(top) : wide[0].signum();
  }

  public BigInteger floor() {
    if (wide == null) {
      return BigInteger.valueOf(Math.floorDiv(top, bottom));
    }
    BigInteger[] parts = wide[0].divideAndRemainder(wide[1]);
    return parts[1].signum() < 0 ? parts[0].subtract(BigInteger.ONE) : parts[0];
  }

  public BigInteger ceil() {
    return negated().floor().negate();
  }

  /** The nearest whole number; halves go up. */
  public BigInteger round() {
    return plus(small(1, 2)).floor();
  }

  public Ratio magnitude() {
    return sign() < 0 ? negated() : this;
  }

  public double approximately() {
    return new BigDecimal(over())
        .divide(new BigDecimal(under()), MathContext.DECIMAL64)
        .doubleValue();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Ratio ratio
        && over().equals(ratio.over())
        && under().equals(ratio.under());
  }

  @Override
  public int hashCode() {
    return 31 * over().hashCode() + under().hashCode();
  }

  @Override
  public String toString() {
    return over() + "/" + under();
  }
}
