package dev.ullage.slim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The search against trying everything. */
class SearchTest {
  private static final int MOST_CHOICES = 1_000;
  private static final int ENOUGH = 12;

  @Test
  void cheapestSet_isThatOfTryingEverything() {
    int compared = 0;
    int solved = 0;
    for (Cases each : Cases.random(77, 400)) {
      if (compared < ENOUGH && choices(each.changes()) <= MOST_CHOICES && !each.fits()) {
        OptionalInt least = leastOfAll(each);
        Slimming slimming = each.slim();
        OptionalInt found =
            slimming.outcome() == Slimming.Outcome.SLIMMED
                ? OptionalInt.of(slimming.sets().get(0).weight())
                : OptionalInt.empty();
        assertEquals(least, found, () -> each.target().name() + " " + each.loop());
        compared++;
        solved += found.isPresent() ? 1 : 0;
      }
    }
    assertEquals(ENOUGH, compared);
    assertTrue(solved >= ENOUGH / 3, "Only " + solved + " could be solved.");
  }

  private static long choices(List<Change> changes) {
    return byAspect(changes).values().stream()
        .mapToLong(options -> options.size() + 1)
        .reduce(1, Math::multiplyExact);
  }

  private static Map<Aspect, List<Change>> byAspect(List<Change> changes) {
    return changes.stream()
        .collect(
            Collectors.groupingBy(
                Change::aspect, () -> new EnumMap<>(Aspect.class), Collectors.toList()));
  }

  private static OptionalInt leastOfAll(Cases each) {
    Bench bench = each.bench();
    List<Choice> all = new ArrayList<>(List.of(Choice.NOTHING));
    byAspect(each.changes())
        .forEach(
            (aspect, options) -> {
              for (Choice choice : List.copyOf(all)) {
                options.forEach(change -> all.add(choice.with(aspect, Optional.of(change))));
              }
            });
    return all.stream().filter(choice -> fits(bench, choice)).mapToInt(Choice::weight).min();
  }

  private static boolean fits(Bench bench, Choice choice) {
    return bench
        .changed(choice.changes())
        .filter(trial -> trial.fits() && Alternatives.keepsTheRules(trial.loop()))
        .isPresent();
  }
}
