package dev.ullage.slim;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.ToIntFunction;
import java.util.stream.Stream;

/**
 * The choice that needs the least of something: found by exchanging one change at a time, from the
 * most radical ones on, until no exchange makes it better. What one change saves, it saves beside
 * any other; where two cannot be made together, they are exchanged together.
 */
final class Leanest {
  private static final int MOST_ROUNDS = 6;
  private static final int IMPOSSIBLE = Integer.MAX_VALUE;

  private final Bench bench;
  private final Map<Aspect, List<Change>> options;
  private final Function<Choice, Optional<Trial>> trials;
  private final List<List<Aspect>> rivals;

  Leanest(
      Bench bench, Map<Aspect, List<Change>> options, Function<Choice, Optional<Trial>> trials) {
    this.bench = bench;
    this.options = options;
    this.trials = trials;
    this.rivals = rivals();
  }

  /** The leanest by this measure; the milder of equal ones. */
  Choice by(ToIntFunction<Trial> measure) {
    return from(radical(), Optional.empty(), measure);
  }

  /** The leanest that leaves one aspect as a choice has it. */
  Choice keeping(Choice start, Aspect kept, ToIntFunction<Trial> measure) {
    return from(start, Optional.of(kept), measure);
  }

  private Choice from(Choice start, Optional<Aspect> kept, ToIntFunction<Trial> measure) {
    List<List<Aspect>> steps = new ArrayList<>();
    options.keySet().forEach(aspect -> steps.add(List.of(aspect)));
    steps.addAll(rivals);
    steps.removeIf(together -> kept.filter(together::contains).isPresent());
    Choice best = start;
    for (int round = 0; round < MOST_ROUNDS; round++) {
      Choice before = best;
      for (List<Aspect> together : steps) {
        best = leanest(exchanged(best, together), measure);
      }
      if (best.equals(before)) {
        return best;
      }
    }
    return best;
  }

  /** What cannot be planned is not lean, and what cannot be made even less. */
  private Choice leanest(Stream<Choice> choices, ToIntFunction<Trial> measure) {
    return choices
        .min(
            Comparator.comparingInt(
                choice -> trials.apply(choice).map(measure::applyAsInt).orElse(IMPOSSIBLE)))
        .orElseThrow();
  }

  /** The choice as it is, then with every combination of changes of these aspects. */
  private Stream<Choice> exchanged(Choice choice, List<Aspect> aspects) {
    Stream<Choice> choices = Stream.of(choice);
    for (Aspect aspect : aspects) {
      choices = choices.flatMap(each -> ways(aspect).map(way -> each.with(aspect, way)));
    }
    return Stream.concat(Stream.of(choice), choices);
  }

  private Stream<Optional<Change>> ways(Aspect aspect) {
    return Stream.concat(
        Stream.of(Optional.empty()), options.get(aspect).stream().map(Optional::of));
  }

  /** Aspects of which some changes cannot be made together. */
  private List<List<Aspect>> rivals() {
    List<List<Aspect>> rivals = new ArrayList<>();
    for (Aspect first : options.keySet()) {
      for (Aspect second : options.keySet()) {
        if (first.compareTo(second) < 0 && areRivals(first, second)) {
          rivals.add(List.of(first, second));
        }
      }
    }
    return rivals;
  }

  private boolean areRivals(Aspect first, Aspect second) {
    return options.get(first).stream()
        .filter(one -> bench.allows(List.of(one)))
        .anyMatch(
            one ->
                options.get(second).stream()
                    .filter(other -> bench.allows(List.of(other)))
                    .anyMatch(other -> !bench.allows(List.of(one, other))));
  }

  /** The last change of each aspect that can be made beside those before it. */
  private Choice radical() {
    Choice choice = Choice.NOTHING;
    for (Aspect aspect : options.keySet()) {
      Choice before = choice;
      choice =
          ways(aspect)
              .map(way -> before.with(aspect, way))
              .filter(each -> bench.allows(each.changes()))
              .reduce((milder, harder) -> harder)
              .orElse(before);
    }
    return choice;
  }
}
