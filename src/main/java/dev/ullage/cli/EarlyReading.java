package dev.ullage.cli;

import dev.ullage.sizing.CostTables;
import dev.ullage.target.Catalogue;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;

/**
 * The catalogue and the cost tables, read in the background while the command line and the loop
 * file are looked through: one after the other, all this is most of a survey's time.
 */
final class EarlyReading {
  private static final Set<String> WITH_COSTS = Set.of("survey", "budget", "slim", "emit", "audit");

  private Optional<CompletableFuture<Catalogue>> catalogue = Optional.empty();
  private Optional<CompletableFuture<CostTables>> costs = Optional.empty();

  /** Begins to read what the command of that name needs. */
  void startFor(String command) {
    if (WITH_COSTS.contains(command) || command.equals("targets")) {
      catalogue = Optional.of(CompletableFuture.supplyAsync(Catalogue::load));
    }
    if (WITH_COSTS.contains(command)) {
      costs = catalogue.map(first -> first.thenApplyAsync(any -> CostTables.packed()));
    }
  }

  /** Waits for it, or reads it now if nobody has begun. */
  Catalogue catalogue() {
    return catalogue.map(CompletableFuture::join).orElseGet(Catalogue::load);
  }

  /** Waits for them, or reads them now if nobody has begun. */
  CostTables costs() {
    return costs.map(CompletableFuture::join).orElseGet(CostTables::packed);
  }
}
