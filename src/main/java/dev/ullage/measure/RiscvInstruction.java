package dev.ullage.measure;

import dev.ullage.measure.RegisterInstruction.Operation;

/**
 * Reads the instructions of 32-bit RISC-V that are four bytes long; longer ones count as nothing.
 * Encodings: RISC-V Instruction Set Manual, volume I, 2.2 to 2.8 and 24, volume II, 3.3.2.
 */
final class RiscvInstruction {
  static final int RA = 1;
  static final int SP = 2;
  private static final int STATUS = 0x300;
  private static final int INTERRUPTS = 8;

  private RiscvInstruction() {}

  static RegisterInstruction decode(int address, int half, int next) {
    if ((half & 3) != 3) {
      return ShortRiscvInstruction.decode(address, half);
    }
    if ((half & 0x1F) == 0x1F) {
      return RegisterInstruction.nothing((half & 0x3F) == 0x1F ? 6 : 8);
    }
    int word = half | next << 16;
    int to = word >>> 7 & 0x1F;
    int from = word >>> 15 & 0x1F;
    return switch (word & 0x7F) {
      case 0x37 -> RegisterInstruction.constant(to, word & 0xFFFFF000, 4);
      case 0x17 -> RegisterInstruction.constant(to, address + (word & 0xFFFFF000), 4);
      case 0x6F ->
          RegisterInstruction.jump(Operation.JUMP, link(to), address + jumpDistance(word), 4);
      case 0x67 -> RegisterInstruction.with(Operation.JUMP_REGISTER, link(to), from, word >> 20, 4);
      case 0x63 ->
          RegisterInstruction.jump(Operation.BRANCH, -1, address + branchDistance(word), 4);
      case 0x03 -> load(word, to, from);
      case 0x23 -> store(word, from);
      case 0x13 -> constant(word, to, from);
      case 0x33 -> registers(word, to, from);
      case 0x73 -> system(word, to, from);
      case 0x0F, 0x07, 0x27, 0x43, 0x47, 0x4B, 0x4F -> RegisterInstruction.nothing(4);
      default -> RegisterInstruction.writes(to, 4);
    };
  }

  /** No register for the zero one, which keeps nothing. */
  static int link(int register) {
    return register == 0 ? -1 : register;
  }

  private static int jumpDistance(int word) {
    return word >> 31 << 20
        | (word >>> 12 & 0xFF) << 12
        | (word >>> 20 & 1) << 11
        | (word >>> 21 & 0x3FF) << 1;
  }

  private static int branchDistance(int word) {
    return word >> 31 << 12
        | (word >>> 7 & 1) << 11
        | (word >>> 25 & 0x3F) << 5
        | (word >>> 8 & 0xF) << 1;
  }

  private static RegisterInstruction load(int word, int to, int from) {
    return (word >>> 12 & 7) == 2
        ? RegisterInstruction.with(Operation.LOAD, to, from, word >> 20, 4)
        : RegisterInstruction.writes(to, 4);
  }

  private static RegisterInstruction store(int word, int from) {
    int distance = word >> 25 << 5 | word >>> 7 & 0x1F;
    return (word >>> 12 & 7) == 2
        ? RegisterInstruction.with(Operation.STORE, word >>> 20 & 0x1F, from, distance, 4)
        : RegisterInstruction.nothing(4);
  }

  private static RegisterInstruction constant(int word, int to, int from) {
    int value = word >> 20;
    boolean roundsDown = value < 0 && (-value & -value - 1) == 0;
    return switch (word >>> 12 & 7) {
      case 0 -> RegisterInstruction.with(Operation.ADD, to, from, value, 4);
      case 1 -> RegisterInstruction.with(Operation.SHIFT_LEFT, to, from, value & 0x1F, 4);
      case 7 ->
          roundsDown
              ? RegisterInstruction.with(Operation.ALIGN, to, from, -value, 4)
              : RegisterInstruction.writes(to, 4);
      default -> RegisterInstruction.writes(to, 4);
    };
  }

  private static RegisterInstruction registers(int word, int to, int from) {
    int with = word >>> 20 & 0x1F;
    return switch (word & 0xFE007000) {
      case 0 -> RegisterInstruction.of3(Operation.ADD_REGISTER, to, from, with, 4);
      case 0x40000000 -> RegisterInstruction.of3(Operation.SUBTRACT_REGISTER, to, from, with, 4);
      default -> RegisterInstruction.writes(to, 4);
    };
  }

  private static RegisterInstruction system(int word, int to, int from) {
    if (word == 0x30200073) {
      return RegisterInstruction.of(Operation.RETURN_FROM_INTERRUPT, 4);
    }
    boolean status = word >>> 20 == STATUS && (word >>> 12 & 3) != 0;
    boolean clears = (word >>> 12 & 3) == 3;
    boolean names = (word & 0x4000) != 0;
    boolean mayEnable = names ? (from & INTERRUPTS) != 0 : from != 0;
    return status && !clears && mayEnable
        ? new RegisterInstruction(Operation.ENABLE_INTERRUPTS, -1, -1, -1, 0, 1 << to, 4)
        : RegisterInstruction.writes(to, 4);
  }
}
