package dev.ullage.loop;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;

/**
 * Valid loops for tests: every feature comes up, plausible combinations more often than odd ones,
 * and none breaks a rule.
 */
public final class Loops {
  private Loops() {}

  public static Arbitrary<Loop> valid() {
    return Arbitraries.randomValue(Loops::one);
  }

  /** The same loops for the same seed. */
  public static List<Loop> random(long seed, int count) {
    return stream(seed).limit(count).toList();
  }

  /** The same without an end. */
  public static Stream<Loop> stream(long seed) {
    Random random = new Random(seed);
    return Stream.generate(() -> one(random));
  }

  private static Loop one(Random random) {
    return new RandomLoop(random).loop();
  }
}
