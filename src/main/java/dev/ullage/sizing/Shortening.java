package dev.ullage.sizing;

import dev.ullage.firmware.Module;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

/**
 * What the linker saves on RISC-V. It goes over the pieces once, in the order of their addresses,
 * and makes of each far call of 8 bytes one of 2 where the goal is near, or else one of 4. As it
 * does so, pieces before the one at hand have moved and those behind have not; what is shortened
 * stays as it is when more becomes near. The 4 bytes with the upper half of a variable's address go
 * where the global pointer reaches the variable. GNU ld 2.40, {@code riscv_relax_call} and {@code
 * riscv_relax_lui}.
 */
final class Shortening {
  private static final int CALL_TO_NEAR = 6;
  private static final int CALL_TO_FAR = 4;
  private static final int UPPER_HALF = 4;
  private static final int NEAR = 0x800;

  /** How far the linker thinks that pieces may still move apart: the alignment of all code. */
  private static final int RESERVE = 4;

  private final List<Piece> code;
  private final List<Module> modules;
  private final Reachable reachable;
  private final int[] before;
  private final int[] now;
  private final int[] saved;
  private final Map<CostRow.Cost, Integer> places = new IdentityHashMap<>();

  Shortening(List<Piece> code, List<Module> modules, int[] sizes, Reachable reachable) {
    this.code = code;
    this.modules = modules;
    this.reachable = reachable;
    this.before = new int[sizes.length];
    this.now = new int[sizes.length];
    this.saved = new int[sizes.length];
    int at = 0;
    for (int i = 0; i < sizes.length; i++) {
      places.put(code.get(i).cost(), i);
      before[i] = Machine.roundUp(at, code.get(i).alignment());
      at = before[i] + sizes[i];
    }
    at = 0;
    for (int i = 0; i < sizes.length; i++) {
      for (Piece.Reach each : code.get(i).reaches()) {
        saved[i] += saved(i, each);
      }
      now[i] = Machine.roundUp(at, code.get(i).alignment());
      at = now[i] + sizes[i] - saved[i];
    }
  }

  /** Bytes for each piece. */
  int[] saved() {
    return saved;
  }

  private int saved(int piece, Piece.Reach reach) {
    Site site = reach.site();
    int times = site.count().isEmpty() ? 0 : code.get(piece).times(modules, site.count());
    int step = site.count().isEmpty() ? 0 : code.get(piece).cost().steps().get(site.count());
    if (!site.repeats()) {
      return saved(piece, site.offset() + times * step, reach);
    }
    int sum = 0;
    for (int i = 0; i < times; i++) {
      sum += saved(piece, site.offset() + i * step, reach);
    }
    return sum;
  }

  private int saved(int piece, int offset, Piece.Reach reach) {
    if (reach.target().symbol().kind().inRam()) {
      return reachable.has(reach.target()) ? UPPER_HALF : 0;
    }
    Integer goal = places.get(reach.target());
    if (goal == null) {
      return 0;
    }
    int distance =
        (goal < piece ? now[goal] : before[goal]) + reach.offset() - before[piece] - offset;
    int most = distance < 0 ? distance - RESERVE : distance + RESERVE;
    return most >= -NEAR && most < NEAR ? CALL_TO_NEAR : CALL_TO_FAR;
  }
}
