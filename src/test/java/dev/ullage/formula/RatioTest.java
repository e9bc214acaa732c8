package dev.ullage.formula;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.BigRange;
import org.junit.jupiter.api.Test;

/** Held against {@link BigInteger} and {@link BigDecimal} of Java's own library. */
class RatioTest {
  private static final String LOW = "-9300000000000000000";
  private static final String HIGH = "9300000000000000000";

  @Property
  void sumsAreExact(
      @ForAll @BigRange(min = LOW, max = HIGH) BigInteger a,
      @ForAll @BigRange(min = LOW, max = HIGH) BigInteger b,
      @ForAll @BigRange(min = LOW, max = HIGH) BigInteger c,
      @ForAll @BigRange(min = LOW, max = HIGH) BigInteger d) {
    BigInteger under = b.signum() == 0 ? BigInteger.ONE : b;
    BigInteger below = d.signum() == 0 ? BigInteger.ONE : d;
    Ratio one = Ratio.of(a, under);
    Ratio other = Ratio.of(c, below);
    assertIs(a.multiply(below).add(c.multiply(under)), under.multiply(below), one.plus(other));
    assertIs(
        a.multiply(below).subtract(c.multiply(under)), under.multiply(below), one.minus(other));
    assertIs(a.multiply(c), under.multiply(below), one.times(other));
    if (c.signum() != 0) {
      assertIs(a.multiply(below), under.multiply(c), one.over(other));
    }
  }

  @Property
  void smallSumsAreExact(@ForAll int a, @ForAll int b, @ForAll int c, @ForAll int d) {
    sumsAreExact(
        BigInteger.valueOf(a), BigInteger.valueOf(b), BigInteger.valueOf(c), BigInteger.valueOf(d));
  }

  @Property
  void roundsAsDecimalsDo(@ForAll int over, @ForAll @BigRange(min = LOW, max = HIGH) BigInteger c) {
    for (BigInteger top : new BigInteger[] {BigInteger.valueOf(over), c}) {
      BigDecimal quarter = new BigDecimal(top).divide(BigDecimal.valueOf(4));
      Ratio ratio = Ratio.of(quarter);
      assertEquals(whole(quarter, RoundingMode.FLOOR), ratio.floor());
      assertEquals(whole(quarter, RoundingMode.CEILING), ratio.ceil());
      BigDecimal half = quarter.add(new BigDecimal("0.5"));
      assertEquals(whole(half, RoundingMode.FLOOR), ratio.round());
      assertEquals(Ratio.of(quarter.abs()), ratio.magnitude());
      assertEquals(quarter.signum(), ratio.sign());
      assertEquals(quarter.doubleValue(), ratio.approximately(), Math.abs(1e-12 * c.doubleValue()));
    }
  }

  @Test
  void nothingIsDividedByZero() {
    assertThrows(ArithmeticException.class, () -> Ratio.of(1).over(Ratio.of(0)));
    assertThrows(ArithmeticException.class, () -> Ratio.of(BigInteger.ONE, BigInteger.ZERO));
  }

  @Test
  void theLeastLongIsANumberToo() {
    Ratio least = Ratio.of(Long.MIN_VALUE);
    assertIs(BigInteger.TWO.pow(63), BigInteger.ONE, least.magnitude());
    assertIs(BigInteger.ONE, BigInteger.ONE, least.over(least));
  }

  /** In lowest terms, the lower part above zero. */
  private static void assertIs(BigInteger over, BigInteger under, Ratio ratio) {
    BigInteger common = over.gcd(under).multiply(BigInteger.valueOf(under.signum()));
    assertEquals(over.divide(common), ratio.over());
    assertEquals(under.divide(common), ratio.under());
  }

  private static BigInteger whole(BigDecimal number, RoundingMode mode) {
    return number.setScale(0, mode).toBigIntegerExact();
  }
}
