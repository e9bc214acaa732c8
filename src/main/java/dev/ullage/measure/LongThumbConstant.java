package dev.ullage.measure;

import dev.ullage.measure.RegisterInstruction.Operation;

/**
 * Reads arithmetic of ARMv7-M with a constant. Encodings: ARMv7-M Architecture Reference Manual
 * (DDI 0403E), A5.3.1 to A5.3.3.
 */
final class LongThumbConstant {
  private LongThumbConstant() {}

  static RegisterInstruction decode(int address, int first, int second) {
    int to = second >>> 8 & 0xF;
    int from = first & 0xF;
    int field = (first >>> 10 & 1) << 11 | (second >>> 12 & 7) << 8 | second & 0xFF;
    if (to == ThumbInstruction.PC) {
      return RegisterInstruction.nothing(4); // a comparison
    }
    return (first & 0x0200) == 0
        ? modified(first >>> 5 & 0xF, to, from, expand(field))
        : plain(address, first >>> 4 & 0x1F, to, from, field);
  }

  private static RegisterInstruction modified(int operation, int to, int from, int value) {
    return switch (operation) {
      case 1 -> clear(to, from, value);
      case 0 -> clear(to, from, ~value);
      case 2 ->
          from == ThumbInstruction.PC
              ? RegisterInstruction.constant(to, value, 4)
              : RegisterInstruction.writes(to, 4);
      case 3 ->
          from == ThumbInstruction.PC
              ? RegisterInstruction.constant(to, ~value, 4)
              : RegisterInstruction.writes(to, 4);
      case 8 -> RegisterInstruction.with(Operation.ADD, to, from, value, 4);
      case 13 -> RegisterInstruction.with(Operation.ADD, to, from, -value, 4);
      default -> RegisterInstruction.writes(to, 4);
    };
  }

  /** Clearing the lowest bits rounds down. */
  private static RegisterInstruction clear(int to, int from, int bits) {
    boolean lowest = bits > 0 && (bits & bits + 1) == 0 && bits < 1 << 16;
    return lowest
        ? RegisterInstruction.with(Operation.ALIGN, to, from, bits + 1, 4)
        : RegisterInstruction.writes(to, 4);
  }

  private static RegisterInstruction plain(
      int address, int operation, int to, int from, int field) {
    int half = from << 12 | field;
    return switch (operation) {
      case 0x00 -> plus(address, to, from, field);
      case 0x0A -> plus(address, to, from, -field);
      case 0x04 -> RegisterInstruction.constant(to, half, 4);
      case 0x0C -> RegisterInstruction.with(Operation.MOVE_TOP, to, to, half, 4);
      default -> RegisterInstruction.writes(to, 4);
    };
  }

  private static RegisterInstruction plus(int address, int to, int from, int value) {
    return from == ThumbInstruction.PC
        ? RegisterInstruction.constant(to, (address & ~3) + 4 + value, 4)
        : RegisterInstruction.with(Operation.ADD, to, from, value, 4);
  }

  /** A byte, repeated or moved, in twelve bits: A5.3.2, ThumbExpandImm. */
  static int expand(int field) {
    int low = field & 0xFF;
    return switch (field >>> 8) {
      case 0 -> low;
      case 1 -> low << 16 | low;
      case 2 -> low << 24 | low << 8;
      case 3 -> low * 0x01010101;
      default -> Integer.rotateRight(0x80 | low & 0x7F, field >>> 7);
    };
  }
}
