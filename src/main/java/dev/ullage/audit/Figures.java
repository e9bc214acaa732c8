package dev.ullage.audit;

import dev.ullage.measure.Symbol.Kind;
import java.util.List;

/**
 * Bytes by where they go.
 *
 * @param vectors table of interrupt vectors, in flash
 * @param code instructions, in flash
 * @param constants read-only data, in flash
 * @param data initialised variables: their first values in flash, themselves in RAM
 * @param zeroed variables that start at zero or at nothing, in RAM
 * @param reserved RAM that the linker script sets aside for heap and stack
 * @param eeprom data EEPROM
 * @param ramKnown false where the files say nothing of RAM
 */
public record Figures(
    int vectors,
    int code,
    int constants,
    int data,
    int zeroed,
    int reserved,
    int eeprom,
    boolean ramKnown) {

  /** Program memory. */
  public int flash() {
    return vectors + code + constants + data;
  }

  /** RAM that variables take; what is reserved for heap and stack is not in it. */
  public int staticRam() {
    return data + zeroed;
  }

  static int sum(List<Piece> pieces, Kind kind) {
    int sum = 0;
    for (Piece each : pieces) {
      sum = each.kind() == kind ? Math.addExact(sum, each.bytes()) : sum;
    }
    return sum;
  }
}
