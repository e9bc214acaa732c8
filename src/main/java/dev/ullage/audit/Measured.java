package dev.ullage.audit;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What a toolchain left, added up.
 *
 * @param file what was read
 * @param core instruction set, in the words of the catalogue where it knows it; empty where the
 *     file does not say
 * @param compiler in its own words
 * @param pieces every byte of flash and static RAM, by name; they add up to the figures
 * @param heap routines that hand out memory while the program runs
 * @param askedBy for a member of a library, which object file wanted it and under which name
 * @param capacity sizes of the memories as the linker was told
 * @param notes sentences that the user should know
 */
public record Measured(
    String file,
    Optional<String> core,
    Optional<String> compiler,
    Figures figures,
    Stack stack,
    List<Piece> pieces,
    List<String> heap,
    Map<String, String> askedBy,
    Capacity capacity,
    List<String> notes) {

  public Measured {
    pieces = List.copyOf(pieces);
    heap = List.copyOf(heap);
    askedBy = Map.copyOf(askedBy);
    notes = List.copyOf(notes);
  }

  /** Flash and RAM of one module. */
  public record Share(int flash, int ram) {
    Share plus(Piece piece) {
      return new Share(flash + piece.flash(), ram + piece.ram());
    }
  }

  /** What each module takes, by name. */
  public SortedMap<String, Share> modules() {
    SortedMap<String, Share> modules = new TreeMap<>();
    for (Piece each : pieces) {
      modules.merge(each.module(), new Share(0, 0).plus(each), (sum, any) -> sum.plus(each));
    }
    return modules;
  }
}
