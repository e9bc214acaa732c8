package dev.ullage.loop;

import java.util.List;
import java.util.Random;

/** Throws that test generators make. */
record Dice(Random random) {

  /** True that many times in a hundred. */
  boolean percent(int chance) {
    return random.nextInt(100) < chance;
  }

  /** Both ends included. */
  int between(int low, int high) {
    return low + random.nextInt(high - low + 1);
  }

  /** Both ends included. */
  long between(long low, long high) {
    return low + (long) (random.nextDouble() * (high - low + 1));
  }

  @SafeVarargs
  @SuppressWarnings("varargs")
  final <T> T of(T... choices) {
    return choices[random.nextInt(choices.length)];
  }

  <T> T of(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }

  /** Small numbers more often than large ones. */
  int count(int low, int high) {
    return percent(80) ? between(low, Math.min(high, low + 4)) : between(low, high);
  }
}
