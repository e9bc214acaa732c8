package dev.ullage.sizing;

import dev.ullage.sizing.Estimate.Interval;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;

/**
 * How code of one core comes out on another: the ratio of all modules that were measured on both.
 * Code that the tables know nothing of is taken to scale as they do.
 */
public final class CoreScale {
  private final CostTables tables;
  private final Map<String, OptionalDouble> ratios = new ConcurrentHashMap<>();

  public CoreScale(CostTables tables) {
    this.tables = tables;
  }

  /**
   * The bytes that so many bytes of one class of code would take in another.
   *
   * @param from, to classes as {@code Target.codeClass} has them
   * @return empty where one of them was not measured
   */
  public Optional<Interval> scaled(int bytes, String from, String to) {
    OptionalDouble ratio = ratios.computeIfAbsent(from + '>' + to, any -> ratio(from, to));
    return ratio.isPresent()
        ? Optional.of(Policy.interval((int) Math.round(bytes * ratio.getAsDouble()), 0, true))
        : Optional.empty();
  }

  private OptionalDouble ratio(String from, String to) {
    Optional<CostTable> one = tables.portable(from);
    Optional<CostTable> other = tables.portable(to);
    if (one.isEmpty() || other.isEmpty()) {
      return OptionalDouble.empty();
    }
    long before = 0;
    long after = 0;
    for (String key : one.get().keys("")) {
      Optional<CostRow> row = other.get().row(key);
      if (row.isPresent()) {
        before += one.get().row(key).orElseThrow().flashBytes();
        after += row.get().flashBytes();
      }
    }
    return before == 0 ? OptionalDouble.empty() : OptionalDouble.of((double) after / before);
  }
}
