package dev.ullage.slim;

import java.util.Optional;

/** Bytes that become free; negative where more is needed. The flash is the estimate's upper end. */
public record Saving(int flash, int ram, int stack) {

  /** Empty where one of the two could not even be planned. */
  static Optional<Saving> between(Trial before, Trial after) {
    return before
        .needed()
        .flatMap(
            was ->
                after
                    .needed()
                    .map(
                        is ->
                            new Saving(
                                was.flash() - is.flash(),
                                was.staticRam() - is.staticRam(),
                                was.stack() - is.stack())));
  }
}
