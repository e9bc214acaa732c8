package dev.ullage.measure;

import dev.ullage.measure.RegisterInstruction.Operation;

/**
 * Reads the instructions of ARMv6-M and those of ARMv7-M that are two bytes long. Encodings:
 * ARMv7-M Architecture Reference Manual (DDI 0403E), A5.2 and A7.7.
 */
final class ThumbInstruction {
  static final int SP = 13;
  static final int LR = 14;
  static final int PC = 15;

  private ThumbInstruction() {}

  static RegisterInstruction decode(int address, int half, int next) {
    return switch (half >>> 11) {
      case 0x00, 0x01, 0x02 -> shift(half);
      case 0x03 -> addSmall(half);
      case 0x04 -> RegisterInstruction.constant(upper(half), half & 0xFF, 2);
      case 0x05, 0x0C, 0x0E, 0x10, 0x12, 0x1A, 0x1B, 0x18 -> upperHalf(address, half);
      case 0x06 -> add(upper(half), upper(half), half & 0xFF);
      case 0x07 -> add(upper(half), upper(half), -(half & 0xFF));
      case 0x08 -> (half & 0x0400) == 0 ? process(half) : high(half);
      case 0x09 -> fixed(upper(half), (address & ~3) + 4 + (half & 0xFF) * 4);
      case 0x0A, 0x0B -> indexed(half);
      case 0x0D -> load(half & 7, half >>> 3 & 7, (half >>> 6 & 0x1F) * 4);
      case 0x0F, 0x11 -> RegisterInstruction.writes(half & 7, 2);
      case 0x13 -> load(upper(half), SP, (half & 0xFF) * 4);
      case 0x14 ->
          RegisterInstruction.constant(upper(half), (address & ~3) + 4 + (half & 0xFF) * 4, 2);
      case 0x15 -> add(upper(half), SP, (half & 0xFF) * 4);
      case 0x16, 0x17 -> miscellaneous(address, half);
      case 0x19 -> many(half);
      case 0x1C ->
          RegisterInstruction.jump(Operation.JUMP, -1, address + 4 + signed(half, 11) * 2, 2);
      default -> LongThumbInstruction.decode(address, half, next);
    };
  }

  private static RegisterInstruction upperHalf(int address, int half) {
    return switch (half >>> 11) {
      case 0x0C -> store(half & 7, half >>> 3 & 7, (half >>> 6 & 0x1F) * 4);
      case 0x12 -> store(upper(half), SP, (half & 0xFF) * 4);
      case 0x18 -> many(half);
      case 0x1A, 0x1B -> branch(address, half);
      default -> RegisterInstruction.nothing(2); // compare, store a byte or two
    };
  }

  /** Also `movs` between registers, which is a shift by nothing. */
  private static RegisterInstruction shift(int half) {
    boolean left = half >>> 11 == 0;
    return left
        ? RegisterInstruction.with(
            Operation.SHIFT_LEFT, half & 7, half >>> 3 & 7, half >>> 6 & 0x1F, 2)
        : RegisterInstruction.writes(half & 7, 2);
  }

  private static RegisterInstruction addSmall(int half) {
    int second = half >>> 6 & 7;
    int from = half >>> 3 & 7;
    return switch (half >>> 9 & 3) {
      case 0 -> RegisterInstruction.of3(Operation.ADD_REGISTER, half & 7, from, second, 2);
      case 1 -> RegisterInstruction.of3(Operation.SUBTRACT_REGISTER, half & 7, from, second, 2);
      case 2 -> add(half & 7, from, second);
      default -> add(half & 7, from, -second);
    };
  }

  /** Between low registers; `negs` is a difference from zero. */
  private static RegisterInstruction process(int half) {
    return switch (half >>> 6 & 0xF) {
      case 0x8, 0xA, 0xB -> RegisterInstruction.nothing(2); // tst, cmp, cmn
      case 0x9 -> RegisterInstruction.of3(Operation.NEGATE, half & 7, half >>> 3 & 7, -1, 2);
      default -> RegisterInstruction.writes(half & 7, 2);
    };
  }

  private static RegisterInstruction high(int half) {
    int to = half & 7 | half >>> 4 & 8;
    int from = half >>> 3 & 0xF;
    return switch (half >>> 8 & 3) {
      case 0 -> RegisterInstruction.of3(Operation.ADD_REGISTER, to, to, from, 2);
      case 1 -> RegisterInstruction.nothing(2);
      case 2 -> RegisterInstruction.with(Operation.MOVE, to, from, 0, 2);
      default ->
          RegisterInstruction.with(
              Operation.JUMP_REGISTER, (half & 0x80) == 0 ? -1 : LR, from, 0, 2);
    };
  }

  private static RegisterInstruction indexed(int half) {
    return switch (half >>> 9 & 7) {
      case 0, 1, 2 -> RegisterInstruction.nothing(2);
      case 4 ->
          RegisterInstruction.of3(
              Operation.LOAD_INDEXED, half & 7, half >>> 3 & 7, half >>> 6 & 7, 2);
      default -> RegisterInstruction.writes(half & 7, 2);
    };
  }

  private static RegisterInstruction miscellaneous(int address, int half) {
    return switch (half >>> 8 & 0xF) {
      case 0x0 -> add(SP, SP, ((half & 0x80) == 0 ? 4 : -4) * (half & 0x7F));
      case 0x1, 0x3, 0x9, 0xB ->
          RegisterInstruction.jump(
              Operation.BRANCH, -1, address + 4 + ((half >>> 2 & 0x3E) | half >>> 3 & 0x40), 2);
      case 0x2, 0xA -> RegisterInstruction.writes(half & 7, 2);
      case 0x4, 0x5 -> push(half & 0xFF | (half & 0x100) << 6);
      case 0xC, 0xD -> pop(half & 0xFF | (half & 0x100) << 7);
      case 0xF -> ifThen(half);
      default -> RegisterInstruction.nothing(2);
    };
  }

  private static RegisterInstruction push(int list) {
    return RegisterInstruction.many(Operation.PUSH, SP, list, 4 * Integer.bitCount(list), 2);
  }

  private static RegisterInstruction pop(int list) {
    return RegisterInstruction.many(Operation.POP, SP, list, 4 * Integer.bitCount(list), 2);
  }

  /** The mask ends with a one below as many bits as there are instructions more. */
  private static RegisterInstruction ifThen(int half) {
    int mask = half & 0xF;
    return mask == 0
        ? RegisterInstruction.nothing(2)
        : RegisterInstruction.with(
            Operation.IF_THEN, -1, -1, 4 - Integer.numberOfTrailingZeros(mask), 2);
  }

  /** Several registers to or from where a low one points, which moves on. */
  private static RegisterInstruction many(int half) {
    boolean load = half >>> 11 == 0x19;
    int base = 1 << upper(half);
    return RegisterInstruction.writesAll(load ? base | half & 0xFF : base, 2);
  }

  private static RegisterInstruction branch(int address, int half) {
    return switch (half >>> 8 & 0xF) {
      case 0xE -> RegisterInstruction.of(Operation.STOP, 2);
      case 0xF -> RegisterInstruction.nothing(2); // svc
      default -> RegisterInstruction.jump(Operation.BRANCH, -1, address + 4 + (byte) half * 2, 2);
    };
  }

  private static RegisterInstruction add(int to, int from, int value) {
    return RegisterInstruction.with(Operation.ADD, to, from, value, 2);
  }

  private static RegisterInstruction load(int to, int from, int value) {
    return RegisterInstruction.with(Operation.LOAD, to, from, value, 2);
  }

  private static RegisterInstruction store(int what, int at, int value) {
    return RegisterInstruction.with(Operation.STORE, what, at, value, 2);
  }

  private static RegisterInstruction fixed(int to, int address) {
    return RegisterInstruction.with(Operation.LOAD_FIXED, to, -1, address, 2);
  }

  private static int upper(int half) {
    return half >>> 8 & 7;
  }

  private static int signed(int field, int bits) {
    return field << (32 - bits) >> (32 - bits);
  }
}
