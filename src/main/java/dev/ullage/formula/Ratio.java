package dev.ullage.formula;

import java.math.BigDecimal;
import java.math.BigInteger;

/** An exact fraction, so that folding a threshold never rounds before it has to. */
public record Ratio(BigInteger over, BigInteger under) {

  public Ratio {
    if (under.signum() == 0) {
      throw new ArithmeticException("A fraction over zero.");
    }
    BigInteger divisor = over.gcd(under).multiply(BigInteger.valueOf(under.signum()));
    over = over.divide(divisor);
    under = under.divide(divisor);
  }

  public static Ratio of(BigDecimal value) {
    BigInteger unscaled = value.unscaledValue();
    return value.scale() >= 0
        ? new Ratio(unscaled, BigInteger.TEN.pow(value.scale()))
        : new Ratio(unscaled.multiply(BigInteger.TEN.pow(-value.scale())), BigInteger.ONE);
  }

  public static Ratio of(long value) {
    return new Ratio(BigInteger.valueOf(value), BigInteger.ONE);
  }

  public Ratio plus(Ratio other) {
    return new Ratio(
        over.multiply(other.under).add(other.over.multiply(under)), under.multiply(other.under));
  }

  public Ratio minus(Ratio other) {
    return plus(other.times(of(-1)));
  }

  public Ratio times(Ratio other) {
    return new Ratio(over.multiply(other.over), under.multiply(other.under));
  }

  public Ratio over(Ratio other) {
    return new Ratio(over.multiply(other.under), under.multiply(other.over));
  }

  public int sign() {
    return over.signum();
  }

  public BigInteger floor() {
    BigInteger[] parts = over.divideAndRemainder(under);
    return parts[1].signum() < 0 ? parts[0].subtract(BigInteger.ONE) : parts[0];
  }

  public BigInteger ceil() {
    return times(of(-1)).floor().negate();
  }

  /** The nearest whole number; halves go up. */
  public BigInteger round() {
    return plus(new Ratio(BigInteger.ONE, BigInteger.TWO)).floor();
  }

  public Ratio magnitude() {
    return new Ratio(over.abs(), under);
  }

  public double approximately() {
    return new BigDecimal(over)
        .divide(new BigDecimal(under), java.math.MathContext.DECIMAL64)
        .doubleValue();
  }
}
