package dev.ullage.sizing;

import java.util.Collections;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;

/**
 * Which variables of a RISC-V program one instruction reaches through the global pointer. The
 * linker scripts of the ports put it 1 KiB behind the start of RAM; instructions reach 2 KiB to
 * either side, less what the linker keeps in reserve: the size of the variable and the widest
 * alignment.
 */
final class Reachable {
  static final Reachable EVERYTHING = new Reachable(Set.of());

  private static final int POINTER = 0x400;
  private static final int REACH = 0x800;

  /** Compared as the same objects. */
  private final Set<CostRow.Cost> far;

  private Reachable(Set<CostRow.Cost> far) {
    this.far = far;
  }

  /** For variables that lie one behind the other, from the start of RAM on. */
  static Reachable of(
      List<Piece> data, int[] dataSizes, List<Piece> zeroes, int[] zeroSizes, int grain) {
    Set<CostRow.Cost> far = Collections.newSetFromMap(new IdentityHashMap<>(4));
    int end = add(data, dataSizes, 0, grain, far);
    add(zeroes, zeroSizes, Machine.roundUp(end, grain), grain, far);
    return far.isEmpty() ? EVERYTHING : new Reachable(far);
  }

  private static int add(
      List<Piece> pieces, int[] sizes, int start, int reserve, Set<CostRow.Cost> far) {
    int at = start;
    for (int i = 0; i < sizes.length; i++) {
      at = Machine.roundUp(at, pieces.get(i).alignment());
      int from = at - POINTER;
      int spare = reserve + sizes[i];
      if (from < 0 ? from - spare < -REACH : from + spare >= REACH) {
        far.add(pieces.get(i).cost());
      }
      at += sizes[i];
    }
    return at;
  }

  boolean everything() {
    return far.isEmpty();
  }

  boolean has(CostRow.Cost variable) {
    return !far.contains(variable);
  }
}
