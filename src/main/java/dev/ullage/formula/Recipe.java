package dev.ullage.formula;

import java.math.BigInteger;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Numbers worked out from others, one after another: how a divider follows from a clock and a rate,
 * and what rate comes out.
 *
 * <p>Each step is a name and a formula that may use the inputs and all names before it. A name in
 * capitals is a constant of the emitted C, a whole number; {@code in 0..255} behind its formula
 * says what the register can hold.
 */
public final class Recipe {
  private final Map<String, String> texts;
  private volatile List<Step> steps = List.of();

  private record Step(String name, Formula formula, Optional<Range> range) {
    boolean isConstant() {
      return name.equals(name.toUpperCase(java.util.Locale.ROOT));
    }
  }

  private record Range(BigInteger low, BigInteger high) {
    boolean holds(Ratio value) {
      BigInteger whole = value.floor();
      return whole.compareTo(low) >= 0 && whole.compareTo(high) <= 0;
    }
  }

  /**
   * What came out.
   *
   * @param numbers inputs and steps, by name
   * @param constants for the emitted C, in order
   * @param tooFar the first constant that its register cannot hold
   */
  public record Outcome(
      Map<String, Ratio> numbers, Map<String, Long> constants, Optional<String> tooFar) {

    /** A number that the recipe may or may not give. */
    public Optional<Ratio> number(String name) {
      return Optional.ofNullable(numbers.get(name));
    }

    /**
     * A number that the recipe must give.
     *
     * @throws IllegalStateException if it does not: the catalogue is wrong
     */
    public double real(String name) {
      return number(name)
          .orElseThrow(() -> new IllegalStateException("The recipe does not give `" + name + "`."))
          .approximately();
    }
  }

  private Recipe(Map<String, String> texts) {
    this.texts = java.util.Collections.unmodifiableMap(new LinkedHashMap<>(texts));
  }

  /** As written, in order; formulas are read when they are first used, for few of them are. */
  public static Recipe of(Map<String, String> texts) {
    return new Recipe(texts);
  }

  /**
   * Reads all formulas.
   *
   * @throws IllegalArgumentException with the name of the step, where one is none
   */
  public Recipe checked() {
    steps();
    return this;
  }

  /** The steps as they are written. */
  public Map<String, String> texts() {
    return texts;
  }

  /**
   * Works everything out. After a constant that its register cannot hold nothing more is.
   *
   * @throws IllegalArgumentException where a formula uses a name that has no value
   */
  public Outcome solve(Map<String, Ratio> inputs) {
    Map<String, Ratio> numbers = new LinkedHashMap<>(inputs);
    Map<String, Long> constants = new LinkedHashMap<>();
    for (Step step : steps()) {
      Ratio value = step.formula().value(numbers);
      if (step.range().filter(range -> !range.holds(value)).isPresent()) {
        return new Outcome(numbers, constants, Optional.of(step.name()));
      }
      numbers.put(step.name(), value);
      if (step.isConstant()) {
        constants.put(step.name(), value.floor().longValueExact());
      }
    }
    return new Outcome(numbers, constants, Optional.empty());
  }

  private List<Step> steps() {
    if (steps.isEmpty()) {
      List<Step> all = new ArrayList<>();
      texts.forEach((name, text) -> all.add(step(name, text)));
      steps = List.copyOf(all);
    }
    return steps;
  }

  private static Step step(String name, String text) {
    try {
      int in = text.lastIndexOf(" in ");
      return in < 0
          ? new Step(name, Formula.parse(text), Optional.empty())
          : new Step(
              name,
              Formula.parse(text.substring(0, in)),
              Optional.of(range(text.substring(in + " in ".length()))));
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(name + ": " + e.getMessage(), e);
    }
  }

  private static Range range(String text) {
    String[] ends = text.strip().split("\\.\\.", 2);
    if (ends.length != 2) {
      throw new IllegalArgumentException("`" + text + "` is no range such as 0..255");
    }
    return new Range(new BigInteger(ends[0]), new BigInteger(ends[1]));
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Recipe recipe && texts.equals(recipe.texts);
  }

  @Override
  public int hashCode() {
    return texts.hashCode();
  }
}
