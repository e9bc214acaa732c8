package dev.ullage.firmware;

/**
 * Numbers with a fixed count of decimal places. A survey prints hundreds of them in a run that ends
 * before the general formatter has warmed up.
 */
final class Decimal {
  private Decimal() {}

  /** The value, rounded half up, with so many decimal places: {@code 2.70}. */
  static String of(double value, int places) {
    long one = 1;
    for (int i = 0; i < places; i++) {
      one *= 10;
    }
    long scaled = Math.round(Math.abs(value) * one);
    String sign = value < 0 && scaled > 0 ? "-" : "";
    if (places == 0) {
      return sign + scaled;
    }
    String fraction = Long.toString(one + scaled % one).substring(1);
    return sign + scaled / one + '.' + fraction;
  }
}
