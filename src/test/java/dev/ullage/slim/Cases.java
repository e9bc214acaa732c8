package dev.ullage.slim;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Loops;
import dev.ullage.sizing.CostTables;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** Loops on parts that are too small for many of them. */
record Cases(Loop loop, Target target) {
  static final CostTables COSTS = CostTables.packed();

  private static final Catalogue CATALOGUE = Catalogue.load();
  private static final List<String> SMALL =
      List.of("attiny13a", "attiny25", "attiny2313a", "attiny24", "attiny48", "atmega48pa");

  static Target target(String name) {
    return CATALOGUE.target(name).orElseThrow();
  }

  static Cases sample(String name, String target) {
    Path file = Path.of("generated-samples", name, name + ".yaml");
    return new Cases(LoopReader.read(file), target(target));
  }

  /** The same for the same seed. */
  static List<Cases> random(long seed, int count) {
    List<Cases> cases = new ArrayList<>();
    for (Loop loop : Loops.random(seed, count)) {
      cases.add(new Cases(loop, target(SMALL.get(cases.size() % SMALL.size()))));
    }
    return cases;
  }

  Slimming slim() {
    return new Slimmer(target, COSTS, Set.of()).slim(loop);
  }

  boolean fits() {
    return bench().unchanged().fits();
  }

  Bench bench() {
    return new Bench(loop, target, COSTS, loop.margin());
  }

  List<Change> changes() {
    return Alternatives.of(loop, target, Set.of());
  }
}
