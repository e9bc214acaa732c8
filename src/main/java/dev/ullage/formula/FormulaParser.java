package dev.ullage.formula;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads one formula, by descent. */
final class FormulaParser {
  private static final Pattern TOKEN =
      Pattern.compile("\\s*(0x[0-9A-Fa-f]+|[0-9]+(?:\\.[0-9]+)?|[A-Za-z_]\\w*|<=|>=|[-+*/()<>=,])");
  private static final Set<String> COMPARISONS = Set.of("<", "<=", ">", ">=", "=");

  private final List<String> tokens = new ArrayList<>();
  private int next;

  FormulaParser(String text) {
    Matcher matcher = TOKEN.matcher(text);
    int at = 0;
    while (at < text.stripTrailing().length()) {
      if (!matcher.find(at) || matcher.start() != at) {
        throw new IllegalArgumentException("`" + text.substring(at).strip() + "` is no formula");
      }
      tokens.add(matcher.group(1));
      at = matcher.end();
    }
  }

  Formula parse() {
    Formula whole = comparison();
    if (next < tokens.size()) {
      throw unexpected();
    }
    return whole;
  }

  private Formula comparison() {
    Formula left = sum();
    return COMPARISONS.contains(peek()) ? new Formula.Pair(take(), left, sum()) : left;
  }

  private Formula sum() {
    Formula left = product();
    while (peek().equals("+") || peek().equals("-")) {
      left = new Formula.Pair(take(), left, product());
    }
    return left;
  }

  private Formula product() {
    Formula left = single();
    while (peek().equals("*") || peek().equals("/")) {
      left = new Formula.Pair(take(), left, single());
    }
    return left;
  }

  private Formula single() {
    String token = take();
    if (token.equals("(")) {
      Formula inner = comparison();
      expect(")");
      return inner;
    }
    if (token.equals("-")) {
      return new Formula.Pair("-", new Formula.Number(Ratio.of(0)), single());
    }
    if (token.isEmpty() || "+*/)<=>=,".contains(token)) {
      next--;
      throw unexpected();
    }
    if (Character.isDigit(token.charAt(0))) {
      return Formula.Number.of(token);
    }
    return peek().equals("(") ? call(token) : new Formula.Name(token);
  }

  private Formula call(String name) {
    List<Formula> inputs = new ArrayList<>();
    do {
      next++;
      inputs.add(comparison());
    } while (peek().equals(","));
    expect(")");
    Function function = Function.named(name);
    if (!function.takes(inputs.size())) {
      throw new IllegalArgumentException(
          "`" + name + "` does not take " + inputs.size() + " inputs");
    }
    return new Formula.Call(function, inputs);
  }

  private void expect(String token) {
    if (!peek().equals(token)) {
      throw unexpected();
    }
    next++;
  }

  private IllegalArgumentException unexpected() {
    return new IllegalArgumentException(
        peek().isEmpty() ? "the formula ends too early" : "`" + peek() + "` was not expected");
  }

  private String peek() {
    return next < tokens.size() ? tokens.get(next) : "";
  }

  private String take() {
    String token = peek();
    next++;
    return token;
  }
}
