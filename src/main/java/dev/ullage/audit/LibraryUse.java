package dev.ullage.audit;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/**
 * Library code of one kind, why it is there, and the cheaper way.
 *
 * @param reason what in the program asks for it
 * @param cheaper what would do without
 * @param bytes of flash
 * @param symbols the routines, in order
 * @param askedBy object files of the program with the name that each asked for; empty where there
 *     is no map
 * @param isNew whether some of it was not in the baseline
 */
public record LibraryUse(
    String reason,
    String cheaper,
    int bytes,
    List<String> symbols,
    List<String> askedBy,
    boolean isNew) {
  private static final int LONGEST_CHAIN = 50;

  public LibraryUse {
    symbols = List.copyOf(symbols);
    askedBy = List.copyOf(askedBy);
  }

  /**
   * What the program uses, the largest first.
   *
   * @param before what was accepted; where there is nothing, nothing counts as new
   */
  static List<LibraryUse> of(Measured measured, Optional<Baseline> before) {
    Map<Helper, List<Piece>> kinds = new EnumMap<>(Helper.class);
    for (Piece each : measured.pieces()) {
      if (each.flash() > 0) {
        Helper.of(each.symbol())
            .ifPresent(kind -> kinds.computeIfAbsent(kind, k -> new ArrayList<>()).add(each));
      }
    }
    Set<String> known = new HashSet<>();
    before.ifPresent(base -> base.pieces().forEach(each -> known.add(each.symbol())));
    List<LibraryUse> uses = new ArrayList<>();
    kinds.forEach(
        (kind, pieces) -> {
          boolean isNew =
              before.isPresent()
                  && pieces.stream().anyMatch(each -> !known.contains(each.symbol()));
          uses.add(use(kind, pieces, measured.askedBy(), isNew));
        });
    uses.sort((one, other) -> other.bytes() - one.bytes());
    return uses;
  }

  private static LibraryUse use(
      Helper kind, List<Piece> pieces, Map<String, String> askedBy, boolean isNew) {
    Set<String> askers = new TreeSet<>();
    for (Piece each : pieces) {
      asker(each.object(), askedBy).ifPresent(askers::add);
    }
    return new LibraryUse(
        kind.reason(),
        kind.cheaper(),
        pieces.stream().mapToInt(Piece::flash).sum(),
        pieces.stream().map(Piece::symbol).distinct().sorted().toList(),
        List.copyOf(askers),
        isNew);
  }

  /** Goes back from library to library until an object file of the program has asked. */
  private static Optional<String> asker(String object, Map<String, String> askedBy) {
    String at = object;
    for (int i = 0; i < LONGEST_CHAIN; i++) {
      String asker = askedBy.get(at);
      if (asker == null) {
        return Optional.empty();
      }
      String from = asker.substring(0, asker.lastIndexOf(" ("));
      if (!from.endsWith(")")) {
        return Optional.of(asker);
      }
      at = from;
    }
    return Optional.empty();
  }
}
