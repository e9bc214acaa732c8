package dev.ullage.slim;

import dev.ullage.loop.Loop;
import java.util.Optional;

/** Makes another loop of a loop; empty where that loop leaves nothing to change so. */
public interface Edit {
  /** The other loop. */
  Optional<Loop> apply(Loop loop);
}
