package dev.ullage.sizing;

import dev.ullage.firmware.Module;
import dev.ullage.target.Target;
import java.util.Optional;

/**
 * The tables that serve one target.
 *
 * @param codeClass of the tables
 * @param ownClass whether that is the class of the target, and not the nearest that was measured
 * @param startUp bytes of vectors and start-up code
 * @param ownStartUp whether they were measured on this target
 */
record Shelf(
    CostTable portable,
    CostTable port,
    Optional<CostTable> helpers,
    String codeClass,
    boolean ownClass,
    int startUp,
    boolean ownStartUp) {

  /** Empty where nothing was measured that comes near. */
  static Optional<Shelf> of(CostTables tables, Target target) {
    String family = target.family().name();
    Optional<Integer> startUp = StartUp.measured(tables, target);
    return tables
        .nearestClass(family, target.codeClass())
        .map(
            codeClass ->
                new Shelf(
                    tables.portable(codeClass).orElseThrow(),
                    tables.port(family, codeClass).orElseThrow(),
                    tables.helpers(codeClass),
                    codeClass,
                    codeClass.equals(target.codeClass()),
                    startUp.orElseGet(() -> StartUp.likely(tables, target)),
                    startUp.isPresent()));
  }

  CostTable table(Module module) {
    return module.scope() == Module.Scope.PORT ? port : portable;
  }
}
