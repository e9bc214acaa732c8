package dev.ullage.sizing;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import dev.ullage.measure.Symbol;
import dev.ullage.measure.Symbol.Kind;
import dev.ullage.sizing.CostRow.Cost;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

/**
 * What a linker moves as a whole: a section of an object file.
 *
 * @param owner the place of its module, or -1 for a helper
 * @param cost of the first symbol in it, which has all its bytes
 * @param alignment what its address is a multiple of
 * @param reaches places that the linker may shorten, in no order
 */
record Piece(int owner, Cost cost, int alignment, List<Reach> reaches) {

  /**
   * A place that the linker may shorten.
   *
   * @param site where it is
   * @param target the piece that it leads to
   * @param offset of the goal in that piece
   */
  record Reach(Site site, Cost target, int offset) {}

  /**
   * As the linker scripts of the ports sort: wide alignments first, then by name of the section.
   */
  static final Comparator<Piece> ORDER =
      Comparator.comparingInt((Piece each) -> -each.alignment()).thenComparing(Piece::section);

  /** GCC puts {@code main} apart; the routines of its library share a section's name. */
  private String section() {
    Symbol symbol = cost.symbol();
    if (symbol.name().startsWith(".")) {
      return symbol.name();
    }
    return switch (symbol.kind()) {
      case CODE ->
          owner < 0
              ? ".text"
              : symbol.name().equals("main") ? ".text.startup.main" : ".text." + symbol.name();
      case RODATA -> ".rodata." + symbol.name();
      case DATA -> ".data." + symbol.name();
      case BSS -> ".bss." + symbol.name();
      case EEPROM -> ".settings";
      case RAM_CODE -> ".ramcode." + symbol.name();
    };
  }

  Kind kind() {
    return cost.symbol().kind();
  }

  /** How often something is there that goes by a count. */
  int times(List<Module> modules, String count) {
    return owner < 0 ? 0 : modules.get(owner).counts().getOrDefault(count, 0);
  }

  /** Its bytes in a program of these modules, as the compiler leaves them. */
  int bytes(List<Module> modules, List<Buffer> buffers) {
    if (kind().inRam() && owner >= 0) {
      for (Buffer each : buffers) {
        if (each.symbol().equals(cost.symbol().name())
            && each.module().equals(modules.get(owner).name())) {
          return each.bytes();
        }
      }
    }
    int bytes = cost.symbol().bytes();
    for (Map.Entry<String, Integer> step : cost.steps().entrySet()) {
      bytes += step.getValue() * times(modules, step.getKey());
    }
    return bytes;
  }
}
