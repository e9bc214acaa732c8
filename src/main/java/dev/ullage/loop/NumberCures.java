package dev.ullage.loop;

import dev.ullage.input.Node;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What most likely helps against something that is no number, or not the number that it should be.
 */
final class NumberCures {
  private static final Pattern COMMA = Pattern.compile("([-+]?\\d+),(\\d+)");
  private static final Pattern GROUPED = Pattern.compile("[-+]?\\d+(?:[_' ]\\d{3})+");
  private static final Pattern WITH_UNIT =
      Pattern.compile("([-+]?\\d+(?:\\.\\d+)?) *((?![eE][-+]?\\d)[^\\d\\s.,]\\S*)");
  private static final Pattern HEX = Pattern.compile("(?i)[$#]?(?:0?x)?([0-9a-f]{2})h?");

  /** Factors of the units that people write, for the unit that a key's name ends with. */
  private static final Map<String, Map<String, String>> FACTORS =
      Map.of(
          "_ms", Map.of("ms", "1", "s", "1000", "sec", "1000", "min", "60000"),
          "_hz", Map.of("hz", "1", "khz", "1000", "k", "1000", "mhz", "1000000", "m", "1000000"),
          "_ohm", Map.of("ohm", "1", "ohms", "1", "k", "1000", "kohm", "1000", "r", "1"),
          "_pf", Map.of("pf", "1", "nf", "1000"),
          "_v", Map.of("v", "1", "mv", "0.001"),
          "_bytes",
              Map.of("b", "1", "byte", "1", "bytes", "1", "k", "1024", "kb", "1024", "kib", "1024"),
          "_percent", Map.of("%", "1"));

  private static final int DIGITS_KEPT = 4;

  private NumberCures() {}

  static Optional<String> of(Shape shape, String path, Node.Scalar scalar) {
    String text = scalar.text().strip();
    if (!scalar.plain() && Numbers.decimal(text).isPresent()) {
      return Optional.of("write it without quotes: " + text);
    }
    Optional<BigDecimal> number = Numbers.decimal(text);
    return number.isPresent() ? forNumber(shape, path, number.get()) : forText(shape, path, text);
  }

  private static Optional<String> forText(Shape shape, String path, String text) {
    Matcher comma = COMMA.matcher(text);
    if (comma.matches()) {
      return Optional.of("write a decimal point: " + comma.group(1) + '.' + comma.group(2));
    }
    if (GROUPED.matcher(text).matches()) {
      return Optional.of("write the digits together: " + text.replaceAll("[_' ]", ""));
    }
    Matcher hex = HEX.matcher(text);
    if (shape instanceof Shape.Whole whole && whole.hex() && hex.matches()) {
      return Optional.of("write 0x" + hex.group(1).toUpperCase(Locale.ROOT));
    }
    Matcher withUnit = WITH_UNIT.matcher(text);
    return withUnit.matches()
        ? Optional.of(withoutUnit(path, withUnit.group(1), withUnit.group(2)))
        : Optional.empty();
  }

  private static String withoutUnit(String path, String number, String unit) {
    for (Map.Entry<String, Map<String, String>> ending : FACTORS.entrySet()) {
      String factor = ending.getValue().get(unit.toLowerCase(Locale.ROOT));
      if (path.endsWith(ending.getKey()) && factor != null) {
        BigDecimal value = new BigDecimal(number).multiply(new BigDecimal(factor));
        return "the key's name has the unit: write " + Numbers.plain(value).toPlainString();
      }
    }
    return "write the number alone: " + number;
  }

  private static Optional<String> forNumber(Shape shape, String path, BigDecimal number) {
    if (path.equals("sensor.address")) {
      return AddressCure.of(number);
    }
    if (path.startsWith("sensor.ask[") && number.scale() == 0 && isTwoBytes(number)) {
      long value = number.longValueExact();
      return Optional.of(
          "write two bytes: " + Hex.shown(value >> 8) + ", " + Hex.shown(value & 0xFF));
    }
    if (!(shape instanceof Shape.Whole whole)) {
      return shape instanceof Shape.Decimal decimal ? rounded(decimal, number) : Optional.empty();
    }
    if (fits(whole, number)) {
      return Optional.of("write " + number.toPlainString());
    }
    BigDecimal next = number.setScale(0, RoundingMode.CEILING);
    if (fits(whole, next)) {
      return Optional.of("round it up: write " + next);
    }
    BigDecimal thousands = Numbers.plain(number.movePointRight(3));
    boolean kilo = path.endsWith("_hz") && number.signum() > 0 && fits(whole, thousands);
    return kilo ? Optional.of("in Hz: write " + thousands.toPlainString()) : Optional.empty();
  }

  /** Only where rounding does not show. */
  private static Optional<String> rounded(Shape.Decimal shape, BigDecimal number) {
    BigDecimal near = number.setScale(Shape.Decimal.MAX_DECIMALS, RoundingMode.HALF_EVEN);
    BigDecimal off = number.subtract(near).abs();
    boolean shows = off.movePointRight(DIGITS_KEPT).compareTo(number.abs()) > 0;
    return shows || off.signum() == 0 || !shape.holds(near)
        ? Optional.empty()
        : Optional.of("round it: write " + Numbers.plain(near).toPlainString());
  }

  private static boolean isTwoBytes(BigDecimal number) {
    return number.compareTo(BigDecimal.valueOf(0xFF)) > 0
        && number.compareTo(BigDecimal.valueOf(0xFFFF)) <= 0;
  }

  private static boolean fits(Shape.Whole whole, BigDecimal number) {
    return number.scale() == 0 && number.precision() <= 15 && whole.holds(number.longValueExact());
  }
}
