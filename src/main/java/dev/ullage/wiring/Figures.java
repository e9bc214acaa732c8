package dev.ullage.wiring;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Locale;

/** Numbers as people write them on a circuit diagram. */
public final class Figures {
  private static final double KILO = 1000;

  private Figures() {}

  /** Three digits, and no zeros behind the point that say nothing. */
  public static String digits(double value) {
    BigDecimal rounded = new BigDecimal(value).round(new MathContext(3, RoundingMode.HALF_UP));
    BigDecimal plain = rounded.signum() == 0 ? BigDecimal.ZERO : rounded.stripTrailingZeros();
    return plain.toPlainString();
  }

  public static String volts(double volts) {
    return digits(volts) + " V";
  }

  public static String milliamperes(double ma) {
    return ma < 0.1 ? digits(ma * KILO) + " uA" : digits(ma) + " mA";
  }

  /** {@code 470 ohm}, {@code 4.7 kohm}, {@code 1 Mohm}. */
  public static String ohm(double ohm) {
    if (ohm >= KILO * KILO) {
      return digits(ohm / KILO / KILO) + " Mohm";
    }
    return ohm >= KILO ? digits(ohm / KILO) + " kohm" : digits(ohm) + " ohm";
  }

  public static String milliseconds(double ms) {
    return ms < 1 ? digits(ms * KILO) + " us" : digits(ms) + " ms";
  }

  public static String hertz(double hz) {
    if (hz >= KILO * KILO) {
      return digits(hz / KILO / KILO) + " MHz";
    }
    return hz >= KILO ? digits(hz / KILO) + " kHz" : digits(hz) + " Hz";
  }

  /** A share of 1 in per cent: {@code 0.16 %}. */
  public static String percent(double share) {
    return digits(share * 100) + " %";
  }

  /** A deviation with its sign: {@code +0.16 %}, {@code 0 %}. */
  public static String deviation(double share) {
    String text = String.format(Locale.ROOT, "%+.2f", share * 100);
    return text.matches("[+-]0\\.00") ? "0 %" : text + " %";
  }

  /** Hours, or days where they are many, or years. */
  public static String hours(double hours) {
    if (hours < 72) {
      return digits(hours) + " h";
    }
    double days = hours / 24;
    return days < 730 ? digits(days) + " days" : digits(days / 365.25) + " years";
  }
}
