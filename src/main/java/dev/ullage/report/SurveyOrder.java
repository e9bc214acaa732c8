package dev.ullage.report;

import dev.ullage.sizing.Headroom;
import java.util.Comparator;
import java.util.function.ToIntFunction;

/** In which order a survey lists its targets. */
public enum SurveyOrder {
  /** By verdict, those with figures first, then the smallest flash, then the smallest RAM. */
  SIZE(
      Comparator.<Assessment>comparingInt(row -> row.verdict().kind().ordinal())
          .thenComparing(Assessment::isListedOnly)
          .thenComparingInt(row -> row.target().flash().orElse(Integer.MAX_VALUE))
          .thenComparingInt(row -> row.target().ram())),
  /** By name, numbers in it in their own order. */
  NAME(Comparator.comparing(row -> padded(row.target().name()))),
  /** Where most flash is left first. */
  FLASH(most(Headroom::flash)),
  /** Where most RAM is left first. */
  RAM(most(Headroom::ram));

  private final Comparator<Assessment> order;

  SurveyOrder(Comparator<Assessment> order) {
    this.order = order;
  }

  /** Equal ones stay in the order of the catalogue. */
  Comparator<Assessment> order() {
    return order;
  }

  private static Comparator<Assessment> most(ToIntFunction<Headroom> left) {
    return Comparator.<Assessment>comparingInt(
            row -> row.headroom().map(left::applyAsInt).orElse(Integer.MIN_VALUE))
        .reversed();
  }

  /** The name with its numbers at a fixed width: {@code atmega8} comes before {@code atmega16}. */
  private static String padded(String name) {
    StringBuilder padded = new StringBuilder();
    for (String piece : name.split("(?<=\\D)(?=\\d)|(?<=\\d)(?=\\D)")) {
      boolean number = Character.isDigit(piece.charAt(0));
      padded.append(number ? "0".repeat(Math.max(0, 6 - piece.length())) : "").append(piece);
    }
    return padded.toString();
  }
}
