package dev.ullage.sizing;

import dev.ullage.target.Target;
import java.util.Optional;

/** Bytes of a program that does nothing: interrupt vectors and start-up code. */
final class StartUp {
  private static final int CODE_CLASS = 0;
  private static final int TOTAL = 1;
  private static final int VECTORS = 2;

  private StartUp() {}

  /** As measured on this target. */
  static Optional<Integer> measured(CostTables tables, Target target) {
    return tables
        .startUp(target.toolchain())
        .flatMap(table -> table.fields(target.name()))
        .map(fields -> Integer.valueOf(fields.split("\t")[TOTAL]));
  }

  /** This target's vectors, and the start-up code of a measured target of the same class. */
  static int likely(CostTables tables, Target target) {
    int vectors = target.vectors() * target.vectorBytes();
    return vectors
        + tables.startUp(target.toolchain()).stream()
            .flatMap(table -> table.keys("").stream().map(key -> table.fields(key).orElseThrow()))
            .map(fields -> fields.split("\t"))
            .filter(fields -> fields[CODE_CLASS].equals(target.codeClass()))
            .mapToInt(fields -> Integer.parseInt(fields[TOTAL]) - Integer.parseInt(fields[VECTORS]))
            .findFirst()
            .orElse(0);
  }
}
