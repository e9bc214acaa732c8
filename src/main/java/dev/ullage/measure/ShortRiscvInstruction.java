package dev.ullage.measure;

import static dev.ullage.measure.RiscvInstruction.RA;
import static dev.ullage.measure.RiscvInstruction.SP;

import dev.ullage.measure.RegisterInstruction.Operation;

/**
 * Reads the compressed instructions of 32-bit RISC-V. Encodings: RISC-V Instruction Set Manual,
 * volume I, chapter 16, tables 16.5 to 16.7.
 */
final class ShortRiscvInstruction {
  private ShortRiscvInstruction() {}

  static RegisterInstruction decode(int address, int half) {
    return switch (half & 3) {
      case 0 -> first(half);
      case 1 -> second(address, half);
      default -> third(half);
    };
  }

  /** Loads and stores with a base among eight registers. */
  private static RegisterInstruction first(int half) {
    int distance = half >>> 7 & 0x38 | half >>> 4 & 4 | half << 1 & 0x40;
    return switch (half >>> 13) {
      case 0 -> half == 0 ? RegisterInstruction.of(Operation.STOP, 2) : above(half);
      case 2 ->
          RegisterInstruction.with(Operation.LOAD, few(half >>> 2), few(half >>> 7), distance, 2);
      case 6 ->
          RegisterInstruction.with(Operation.STORE, few(half >>> 2), few(half >>> 7), distance, 2);
      default -> RegisterInstruction.nothing(2); // floating point
    };
  }

  /** {@code c.addi4spn}: an address above the stack pointer. */
  private static RegisterInstruction above(int half) {
    int distance = half >>> 7 & 0x30 | half >>> 1 & 0x3C0 | half >>> 4 & 4 | half >>> 2 & 8;
    return RegisterInstruction.with(Operation.ADD, few(half >>> 2), SP, distance, 2);
  }

  private static RegisterInstruction second(int address, int half) {
    int register = half >>> 7 & 0x1F;
    return switch (half >>> 13) {
      case 0 -> RegisterInstruction.with(Operation.ADD, register, register, constant(half), 2);
      case 1 -> RegisterInstruction.jump(Operation.JUMP, RA, address + jumpDistance(half), 2);
      case 2 -> RegisterInstruction.constant(register, constant(half), 2);
      case 3 ->
          register == SP
              ? RegisterInstruction.with(Operation.ADD, SP, SP, sixteens(half), 2)
              : RegisterInstruction.constant(register, constant(half) << 12, 2);
      case 4 -> RegisterInstruction.writes(few(half >>> 7), 2);
      case 5 -> RegisterInstruction.jump(Operation.JUMP, -1, address + jumpDistance(half), 2);
      default -> RegisterInstruction.jump(Operation.BRANCH, -1, address + branchDistance(half), 2);
    };
  }

  private static RegisterInstruction third(int half) {
    int register = half >>> 7 & 0x1F;
    return switch (half >>> 13) {
      case 0 ->
          RegisterInstruction.with(Operation.SHIFT_LEFT, register, register, half >>> 2 & 0x1F, 2);
      case 2 -> {
        int distance = half >>> 7 & 0x20 | half >>> 2 & 0x1C | half << 4 & 0xC0;
        yield RegisterInstruction.with(Operation.LOAD, register, SP, distance, 2);
      }
      case 4 -> registers(half, register, half >>> 2 & 0x1F);
      case 6 -> {
        int distance = half >>> 7 & 0x3C | half >>> 1 & 0xC0;
        yield RegisterInstruction.with(Operation.STORE, half >>> 2 & 0x1F, SP, distance, 2);
      }
      default -> RegisterInstruction.nothing(2); // floating point
    };
  }

  private static RegisterInstruction registers(int half, int one, int other) {
    boolean second = (half & 0x1000) != 0;
    if (other != 0) {
      return second
          ? RegisterInstruction.of3(Operation.ADD_REGISTER, one, one, other, 2)
          : RegisterInstruction.with(Operation.MOVE, one, other, 0, 2);
    }
    if (one == 0) {
      return RegisterInstruction.nothing(2); // c.ebreak
    }
    return RegisterInstruction.with(Operation.JUMP_REGISTER, second ? RA : -1, one, 0, 2);
  }

  private static int constant(int half) {
    return (half << 19 >> 31) << 5 | half >>> 2 & 0x1F;
  }

  private static int sixteens(int half) {
    return (half << 19 >> 31) << 9
        | half >>> 2 & 0x10
        | half << 1 & 0x40
        | half << 4 & 0x180
        | half << 3 & 0x20;
  }

  private static int jumpDistance(int half) {
    return (half << 19 >> 31) << 11
        | half >>> 7 & 0x10
        | half >>> 1 & 0x300
        | half << 2 & 0x400
        | half >>> 1 & 0x40
        | half << 1 & 0x80
        | half >>> 2 & 0xE
        | half << 3 & 0x20;
  }

  private static int branchDistance(int half) {
    return (half << 19 >> 31) << 8
        | half >>> 7 & 0x18
        | half << 1 & 0xC0
        | half >>> 2 & 6
        | half << 3 & 0x20;
  }

  /** One of the eight registers that three bits can name. */
  private static int few(int bits) {
    return 8 + (bits & 7);
  }
}
