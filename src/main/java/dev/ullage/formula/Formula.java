package dev.ullage.formula;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;

/**
 * A formula over named numbers, worked out exactly.
 *
 * <p>It has {@code + - * /}, brackets, comparisons ({@code < <= > >= =}: 1 if true, else 0),
 * decimal and hexadecimal numbers, and the functions of {@link Function}.
 */
sealed interface Formula {

  /**
   * @throws IllegalArgumentException where a name has no value
   * @throws ArithmeticException for a division by zero
   */
  Ratio value(Map<String, Ratio> numbers);

  /**
   * @throws IllegalArgumentException with the place, where the text is no formula
   */
  static Formula parse(String text) {
    return new FormulaParser(text).parse();
  }

  /** A number. */
  record Number(Ratio number) implements Formula {
    static Number of(String digits) {
      return new Number(
          digits.startsWith("0x")
              ? Ratio.of(Long.parseLong(digits.substring(2), 16))
              : Ratio.of(new BigDecimal(digits)));
    }

    @Override
    public Ratio value(Map<String, Ratio> numbers) {
      return number;
    }
  }

  /** A name that stands for a number. */
  record Name(String name) implements Formula {
    @Override
    public Ratio value(Map<String, Ratio> numbers) {
      Ratio value = numbers.get(name);
      if (value == null) {
        throw new IllegalArgumentException("`" + name + "` has no value");
      }
      return value;
    }
  }

  /** Two formulas with a sign between them. */
  record Pair(String sign, Formula left, Formula right) implements Formula {
    @Override
    public Ratio value(Map<String, Ratio> numbers) {
      Ratio a = left.value(numbers);
      Ratio b = right.value(numbers);
      return switch (sign) {
        case "+" -> a.plus(b);
        case "-" -> a.minus(b);
        case "*" -> a.times(b);
        case "/" -> a.over(b);
        case "<" -> truth(a.minus(b).sign() < 0);
        case "<=" -> truth(a.minus(b).sign() <= 0);
        case ">" -> truth(a.minus(b).sign() > 0);
        case ">=" -> truth(a.minus(b).sign() >= 0);
        case "=" -> truth(a.minus(b).sign() == 0);
        default -> throw new IllegalStateException(sign);
      };
    }

    private static Ratio truth(boolean isTrue) {
      return Ratio.of(isTrue ? 1 : 0);
    }
  }

  /** A function of other formulas. */
  record Call(Function function, List<Formula> inputs) implements Formula {
    public Call {
      inputs = List.copyOf(inputs);
    }

    @Override
    public Ratio value(Map<String, Ratio> numbers) {
      return function.of(inputs.stream().map(input -> input.value(numbers)).toList());
    }
  }
}
