package dev.ullage.audit;

import java.util.List;
import java.util.Set;

/** Routines that hand out memory while the program runs: whoever calls them can run out of it. */
final class Heap {
  private static final Set<String> NAMES =
      Set.of(
          "malloc",
          "calloc",
          "realloc",
          "free",
          "_malloc_r",
          "_free_r",
          "_realloc_r",
          "sbrk",
          "_sbrk",
          "_sbrk_r",
          "pvPortMalloc",
          "_malloc",
          "_free",
          "_Znwj",
          "_Znwm",
          "_Znaj",
          "_Znam");

  private Heap() {}

  /** Those that are in the program. */
  static List<String> in(List<Piece> pieces) {
    return pieces.stream().map(Piece::symbol).filter(NAMES::contains).distinct().sorted().toList();
  }
}
