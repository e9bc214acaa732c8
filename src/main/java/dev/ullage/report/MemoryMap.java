package dev.ullage.report;

import dev.ullage.audit.Audit;
import dev.ullage.audit.Figures;
import dev.ullage.audit.Fit;
import dev.ullage.audit.Measured;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What lies in the memories of a part, from their start on, as a bar of characters or a picture.
 */
record MemoryMap(List<Memory> memories) {
  private static final int NAMED_MODULES = 7;

  MemoryMap {
    memories = List.copyOf(memories);
  }

  /**
   * One memory.
   *
   * @param capacity in bytes; 0 where it is about shares only
   */
  record Memory(String name, int capacity, List<Region> regions) {
    Memory {
      regions = regions.stream().filter(each -> each.bytes() > 0).toList();
    }

    int taken() {
      return regions.stream().mapToInt(Region::bytes).sum();
    }
  }

  /**
   * Bytes in a row.
   *
   * @param letter what they are drawn with in characters
   */
  record Region(char letter, String name, int bytes) {}

  /** Flash and RAM; empty where the sizes of the memories are not known. */
  static Optional<MemoryMap> of(Audit audit) {
    return audit
        .fit()
        .map(
            fit ->
                new MemoryMap(
                    List.of(
                        flash(audit.measured().figures(), fit, audit),
                        ram(audit.measured(), fit, audit))));
  }

  private static Memory flash(Figures figures, Fit fit, Audit audit) {
    return new Memory(
        "flash",
        audit.capacity().flash().orElse(0),
        List.of(
            new Region('t', "vectors", figures.vectors()),
            new Region('#', "code", figures.code()),
            new Region('c', "constants", figures.constants()),
            new Region('d', "data", figures.data()),
            new Region('m', "margin", fit.flashMargin())));
  }

  private static Memory ram(Measured measured, Fit fit, Audit audit) {
    Figures figures = measured.figures();
    int stack = measured.stack().isBound() ? measured.stack().bytes() : 0;
    return new Memory(
        "RAM",
        audit.capacity().ram().orElse(0),
        List.of(
            new Region('d', "data", figures.data()),
            new Region('#', "variables", figures.zeroed()),
            new Region('r', "set aside", Math.max(0, figures.reserved() - stack)),
            new Region('v', "stack", stack),
            new Region('m', "margin", fit.ramMargin())));
  }

  /** What is taken of the flash, by module: the largest by name. */
  static Memory byModule(Audit audit) {
    List<Map.Entry<String, Measured.Share>> modules =
        audit.measured().modules().entrySet().stream()
            .filter(each -> each.getValue().flash() > 0)
            .sorted(
                Comparator.comparingInt(
                    (Map.Entry<String, Measured.Share> each) -> -each.getValue().flash()))
            .toList();
    List<Region> regions = new ArrayList<>();
    int rest = 0;
    for (Map.Entry<String, Measured.Share> each : modules) {
      if (regions.size() < NAMED_MODULES) {
        regions.add(new Region('#', each.getKey(), each.getValue().flash()));
      } else {
        rest += each.getValue().flash();
      }
    }
    regions.add(new Region('#', "the rest", rest));
    return new Memory("flash by module", 0, regions);
  }
}
