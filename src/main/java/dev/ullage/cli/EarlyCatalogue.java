package dev.ullage.cli;

import dev.ullage.target.Catalogue;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;

/**
 * The catalogue, read in the background while the command line is looked through: together the two
 * take most of a survey's time.
 */
final class EarlyCatalogue {
  private Optional<CompletableFuture<Catalogue>> reading = Optional.empty();

  /** Begins to read. */
  void start() {
    reading = Optional.of(CompletableFuture.supplyAsync(Catalogue::load));
  }

  /** Waits for it, or reads it now if nobody has begun. */
  Catalogue get() {
    return reading.map(CompletableFuture::join).orElseGet(Catalogue::load);
  }
}
