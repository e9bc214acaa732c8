package dev.ullage.measure;

import static dev.ullage.measure.ThumbInstruction.LR;
import static dev.ullage.measure.ThumbInstruction.PC;
import static dev.ullage.measure.ThumbInstruction.SP;

import dev.ullage.measure.RegisterInstruction.Operation;

/**
 * Reads the instructions of ARMv7-M that are four bytes long, {@code bl} of ARMv6-M among them.
 * Encodings: ARMv7-M Architecture Reference Manual (DDI 0403E), A5.3 and A7.7.
 */
final class LongThumbInstruction {
  private static final int MAIN_STACK_POINTER = 8;
  private static final int CONTROL = 20;

  private LongThumbInstruction() {}

  static RegisterInstruction decode(int address, int first, int second) {
    if ((first & 0xEC00) == 0xEC00) {
      return coprocessor(first, second);
    }
    if ((first & 0xFE00) == 0xE800) {
      return (first & 0x0040) == 0 ? many(first, second) : pair(first, second);
    }
    if ((first & 0xFE00) == 0xEA00) {
      return shifted(first, second);
    }
    if ((first & 0xF800) == 0xF000) {
      return (second & 0x8000) == 0
          ? LongThumbConstant.decode(address, first, second)
          : branch(address, first, second);
    }
    if ((first & 0xFE00) == 0xF800) {
      return single(address, first, second);
    }
    // Between registers; long products have a second destination.
    boolean twice = (first & 0xFF80) == 0xFB80;
    int list = 1 << (second >>> 8 & 0xF) | (twice ? 1 << (second >>> 12) : 0);
    return RegisterInstruction.writesAll(list, 4);
  }

  /** `ldm`, `stm` with or without change of their base. */
  private static RegisterInstruction many(int first, int second) {
    boolean load = (first & 0x10) != 0;
    boolean moves = (first & 0x20) != 0;
    int base = first & 0xF;
    int bytes = 4 * Integer.bitCount(second);
    boolean down = (first & 0x0100) != 0;
    if (load && !down) {
      return RegisterInstruction.many(Operation.POP, base, second, moves ? bytes : 0, 4);
    }
    if (!load && down && moves) {
      return RegisterInstruction.many(Operation.PUSH, base, second, bytes, 4);
    }
    int lost = (load ? second : 0) | (moves ? 1 << base : 0);
    return RegisterInstruction.writesAll(lost, 4);
  }

  /** `ldrd`, `strd`, exclusive access and table branches. */
  private static RegisterInstruction pair(int first, int second) {
    if ((first & 0xFFF0) == 0xE8D0 && (second & 0xFFE0) == 0xF000) {
      int bytes = (second & 0x10) == 0 ? 1 : 2;
      return (first & 0xF) == PC
          ? RegisterInstruction.with(Operation.JUMP_TABLE, -1, -1, bytes, 4)
          : RegisterInstruction.with(Operation.JUMP_REGISTER, -1, -1, 0, 4);
    }
    boolean load = (first & 0x10) != 0;
    int both = 1 << (second >>> 12) | 1 << (second >>> 8 & 0xF);
    if ((first & 0x0120) == 0) {
      return RegisterInstruction.writesAll((load ? both : 0) | 1 << (second & 0xF) & ~(1 << PC), 4);
    }
    return moving(first, both, (second & 0xFF) * 4, load);
  }

  /** A load or store of two registers, or of others for a list of none, that may move its base. */
  private static RegisterInstruction moving(int first, int list, int distance, boolean load) {
    int base = first & 0xF;
    boolean up = (first & 0x80) != 0;
    boolean before = (first & 0x100) != 0;
    boolean moves = (first & 0x20) != 0;
    if (!moves) {
      return load ? RegisterInstruction.writesAll(list, 4) : RegisterInstruction.nothing(4);
    }
    if (load && up && !before) {
      return RegisterInstruction.many(Operation.POP, base, list, distance, 4);
    }
    if (!load && !up && before) {
      return RegisterInstruction.many(Operation.PUSH, base, list, distance, 4);
    }
    return base == SP && (list == 0 || !load)
        ? RegisterInstruction.with(Operation.ADD, SP, SP, up ? distance : -distance, 4)
        : RegisterInstruction.writesAll((load ? list : 0) | 1 << base, 4);
  }

  /** Floating point: saves registers of its own on the stack, and may write two of ours. */
  private static RegisterInstruction coprocessor(int first, int second) {
    boolean transfersMany = (first & 0xFE00) == 0xEC00;
    if (transfersMany && (first & 0xFFA0) != 0xEC00) {
      boolean load = (first & 0x10) != 0;
      return moving(first, 0, (second & 0xFF) * 4, load);
    }
    return toOurs(first, second);
  }

  private static RegisterInstruction toOurs(int first, int second) {
    int list = 1 << (second >>> 12) | ((first & 0xFE00) == 0xEC00 ? 1 << (first & 0xF) : 0);
    return RegisterInstruction.writesAll((first & 0x10) == 0 ? 0 : list & ~(1 << PC | 1 << SP), 4);
  }

  /** Arithmetic with a shifted register. */
  private static RegisterInstruction shifted(int first, int second) {
    int to = second >>> 8 & 0xF;
    int from = first & 0xF;
    int with = second & 0xF;
    boolean plain = (second & 0x70F0) == 0;
    int operation = first >>> 5 & 0xF;
    if (plain && operation == 2 && from == PC) {
      return RegisterInstruction.with(Operation.MOVE, to, with, 0, 4);
    }
    if (plain && operation == 8 && to != PC) {
      return RegisterInstruction.of3(Operation.ADD_REGISTER, to, from, with, 4);
    }
    if (plain && operation == 13 && to != PC) {
      return RegisterInstruction.of3(Operation.SUBTRACT_REGISTER, to, from, with, 4);
    }
    return RegisterInstruction.writes(to, 4);
  }

  private static RegisterInstruction branch(int address, int first, int second) {
    int sign = first >>> 10 & 1;
    if ((second & 0x5000) == 0) {
      if ((first & 0x0380) == 0x0380) {
        return control(first, second);
      }
      int distance =
          -sign << 20
              | (second >>> 11 & 1) << 19
              | (second >>> 13 & 1) << 18
              | (first & 0x3F) << 12
              | (second & 0x7FF) << 1;
      return RegisterInstruction.jump(Operation.BRANCH, -1, address + 4 + distance, 4);
    }
    int distance =
        -sign << 24
            | (~(second >>> 13 ^ sign) & 1) << 23
            | (~(second >>> 11 ^ sign) & 1) << 22
            | (first & 0x3FF) << 12
            | (second & 0x7FF) << 1;
    boolean call = (second & 0x4000) != 0;
    return RegisterInstruction.jump(Operation.JUMP, call ? LR : -1, address + 4 + distance, 4);
  }

  private static RegisterInstruction control(int first, int second) {
    if ((first & 0xFFE0) == 0xF380) {
      int register = second & 0xFF;
      return register == MAIN_STACK_POINTER || register == CONTROL
          ? RegisterInstruction.of(Operation.SET_STACK, 4)
          : RegisterInstruction.nothing(4);
    }
    if ((first & 0xFFF0) == 0xF7F0 && (second & 0xF000) == 0xA000) {
      return RegisterInstruction.of(Operation.STOP, 4);
    }
    boolean read = (first & 0xFFE0) == 0xF3E0;
    return read
        ? RegisterInstruction.writes(second >>> 8 & 0xF, 4)
        : RegisterInstruction.nothing(4);
  }

  /** One register to or from memory. */
  private static RegisterInstruction single(int address, int first, int second) {
    int register = second >>> 12;
    int base = first & 0xF;
    boolean load = (first & 0x10) != 0;
    boolean word = (first & 0x0160) == 0x0040;
    if (load && !word && register == PC) {
      return RegisterInstruction.nothing(4); // a hint
    }
    if (load && base == PC) {
      int distance = (first & 0x80) == 0 ? -(second & 0xFFF) : second & 0xFFF;
      return word
          ? RegisterInstruction.with(
              Operation.LOAD_FIXED, register, -1, (address & ~3) + 4 + distance, 4)
          : RegisterInstruction.writes(register, 4);
    }
    if ((first & 0x80) != 0) {
      return transfer(load, word, register, base, second & 0xFFF);
    }
    if ((second & 0x0800) != 0) {
      return stepping(load, word, register, base, second);
    }
    return load && word
        ? RegisterInstruction.of3(Operation.LOAD_INDEXED, register, base, second & 0xF, 4)
        : transfer(load, false, register, base, 0);
  }

  private static RegisterInstruction transfer(
      boolean load, boolean word, int register, int base, int distance) {
    if (!word) {
      return load ? RegisterInstruction.writes(register, 4) : RegisterInstruction.nothing(4);
    }
    return RegisterInstruction.with(
        load ? Operation.LOAD : Operation.STORE, register, base, distance, 4);
  }

  /** With a distance of eight bits, before or after which the base may move. */
  private static RegisterInstruction stepping(
      boolean load, boolean word, int register, int base, int second) {
    boolean before = (second & 0x0400) != 0;
    boolean up = (second & 0x0200) != 0;
    boolean moves = (second & 0x0100) != 0;
    int distance = up ? second & 0xFF : -(second & 0xFF);
    if (!moves) {
      return transfer(load, word, register, base, distance);
    }
    if (load && word && up && !before) {
      return RegisterInstruction.many(Operation.POP, base, 1 << register, distance, 4);
    }
    if (!load && word && !up && before) {
      return RegisterInstruction.many(Operation.PUSH, base, 1 << register, -distance, 4);
    }
    return base == SP && !load
        ? RegisterInstruction.with(Operation.ADD, SP, SP, distance, 4)
        : RegisterInstruction.writesAll((load ? 1 << register : 0) | 1 << base, 4);
  }
}
