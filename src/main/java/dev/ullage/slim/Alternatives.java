package dev.ullage.slim;

import dev.ullage.input.InputException;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.LoopReader;
import dev.ullage.target.Target;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;

/**
 * Everything in a loop that could be had in another way on a target. Never what the job is: the
 * sensor, its address and scale, the limit, the unit, what a dead sensor does.
 */
final class Alternatives {
  private Alternatives() {}

  /**
   * In the order of their aspects; within one, the milder first.
   *
   * @param kept what must stay as it is
   */
  static List<Change> of(Loop loop, Target target, Set<Aspect> kept) {
    return Stream.of(
            BusChanges.of(loop, target),
            BoardChanges.of(loop, target),
            SensorChanges.of(loop),
            AverageChanges.of(loop),
            AlarmChanges.of(loop),
            OutputChanges.of(loop),
            ExtraChanges.of(loop))
        .flatMap(List::stream)
        .filter(change -> !kept.contains(change.aspect()))
        .filter(change -> change.apply(loop).map(Alternatives::keepsTheRules).orElse(true))
        .sorted(Comparator.comparing(Change::aspect).thenComparing(Change::weight))
        .toList();
  }

  /** Whether the reader would take such a loop. */
  static boolean keepsTheRules(Loop loop) {
    try {
      return LoopReader.read("slimmed.yaml", LoopPrinter.print(loop)).equals(loop);
    } catch (InputException broken) {
      return false;
    }
  }
}
