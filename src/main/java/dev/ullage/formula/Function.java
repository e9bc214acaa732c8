package dev.ullage.formula;

import java.math.BigInteger;
import java.util.List;
import java.util.Locale;

/** The functions that a formula may use. */
enum Function {
  /** The nearest whole number not below. */
  CEIL(1, 1),
  /** The nearest whole number not above. */
  FLOOR(1, 1),
  /** The nearest whole number; halves go up. */
  ROUND(1, 1),
  /** The smallest of its inputs. */
  MIN(1, Integer.MAX_VALUE),
  /** The largest of its inputs. */
  MAX(1, Integer.MAX_VALUE),
  /** The second input where the first is not 0, else the third. */
  WHEN(3, 3),
  /** The first of the inputs after the first that is at least the first, or the last of them. */
  AT_LEAST(2, Integer.MAX_VALUE),
  /** The place of that one, from 0 on. */
  PLACE(2, Integer.MAX_VALUE);

  private final int fewest;
  private final int most;

  Function(int fewest, int most) {
    this.fewest = fewest;
    this.most = most;
  }

  boolean takes(int inputs) {
    return inputs >= fewest && inputs <= most;
  }

  /**
   * @throws IllegalArgumentException if there is no such function
   */
  static Function named(String word) {
    for (Function each : values()) {
      if (each.name().toLowerCase(Locale.ROOT).equals(word)) {
        return each;
      }
    }
    throw new IllegalArgumentException("there is no function `" + word + "`");
  }

  Ratio of(List<Ratio> inputs) {
    Ratio first = inputs.get(0);
    return switch (this) {
      case CEIL -> whole(first.ceil());
      case FLOOR -> whole(first.floor());
      case ROUND -> whole(first.round());
      case MIN -> inputs.stream().min(Function::order).orElseThrow();
      case MAX -> inputs.stream().max(Function::order).orElseThrow();
      case WHEN -> first.sign() != 0 ? inputs.get(1) : inputs.get(2);
      case AT_LEAST -> inputs.get(1 + place(first, inputs));
      case PLACE -> Ratio.of(place(first, inputs));
    };
  }

  private static Ratio whole(BigInteger number) {
    return Ratio.of(number);
  }

  private static int place(Ratio least, List<Ratio> inputs) {
    for (int i = 1; i < inputs.size(); i++) {
      if (order(inputs.get(i), least) >= 0) {
        return i - 1;
      }
    }
    return inputs.size() - 2;
  }

  private static int order(Ratio one, Ratio other) {
    return one.minus(other).sign();
  }
}
