package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Contents;
import java.util.function.IntPredicate;
import java.util.zip.CRC32;

/**
 * A short fingerprint of code or constants that stays the same when the linker puts them, or what
 * they refer to, somewhere else: addresses, distances and constants inside instructions are left
 * out. Two routines of the same length and shape are most likely the same one.
 */
public final class Shape {
  private Shape() {}

  /**
   * @param machine as {@link ElfProgram#machine}; instructions of unknown ones count as they are
   * @param from first byte of the contents, and {@code to} the one after the last
   * @param isData whether a place in code holds a constant instead of an instruction
   * @return eight hexadecimal digits
   */
  public static String ofCode(
      int machine, Contents contents, int from, int to, IntPredicate isData) {
    CRC32 sum = new CRC32();
    int at = from;
    while (at < to) {
      at += isData.test(at) ? 1 : add(sum, machine, contents, at, to);
    }
    return digits(sum);
  }

  /** The same for constants, which count as they are. */
  public static String ofConstants(Contents contents, int from, int to) {
    CRC32 sum = new CRC32();
    for (int at = from; at < to; at++) {
      sum.update(contents.at(at));
    }
    return digits(sum);
  }

  private static String digits(CRC32 sum) {
    return Long.toHexString(0x100000000L | sum.getValue()).substring(1);
  }

  /** Adds what is at one place, and answers how long it is. */
  private static int add(CRC32 sum, int machine, Contents contents, int at, int to) {
    if (at + 1 >= to) {
      sum.update(contents.at(at));
      return 1;
    }
    return switch (machine) {
      case ElfProgram.AVR -> addAvr(sum, contents, at, to);
      case ElfProgram.ARM -> addThumb(sum, contents, at, to);
      case ElfProgram.RISCV -> addRiscv(sum, contents, at, to);
      default -> {
        sum.update(contents.at(at));
        yield 1;
      }
    };
  }

  private static int addAvr(CRC32 sum, Contents contents, int at, int to) {
    int word = contents.half(at);
    int next = at + 3 < to ? contents.half(at + 2) : 0;
    AvrInstruction instruction = AvrInstruction.decode(word, next);
    int kept =
        switch (instruction.operation()) {
          case JUMP, CALL -> word & 0xF000;
          case BRANCH -> word & 0xFC07;
          case JUMP_ABSOLUTE, CALL_ABSOLUTE -> word & 0xFE0E;
          case LOAD_CONSTANT, SUBTRACT, SUBTRACT_WITH_CARRY -> word & 0xF0F0;
          default -> word;
        };
    add(sum, kept);
    return Math.min(instruction.length(), to - at);
  }

  /** Thumb: branches with their distance and loads relative to the program counter. */
  private static int addThumb(CRC32 sum, Contents contents, int at, int to) {
    int half = contents.half(at);
    boolean isLong = half >>> 11 >= 0x1D && at + 3 < to;
    if (isLong) {
      boolean branch = half >>> 11 == 0x1E && (contents.half(at + 2) & 0x8000) != 0;
      add(sum, branch ? half & 0xF800 : half);
      add(sum, branch ? contents.half(at + 2) & 0xD000 : contents.half(at + 2));
      return 4;
    }
    add(
        sum,
        switch (half >>> 11) {
          case 0x09, 0x1A, 0x1B -> half & 0xFF00; // ldr from the program counter, b on a condition
          case 0x1C -> half & 0xF800; // b
          default -> half;
        });
    return 2;
  }

  /** RISC-V: in long instructions only operation and destination count, in short jumps the kind. */
  private static int addRiscv(CRC32 sum, Contents contents, int at, int to) {
    int half = contents.half(at);
    if ((half & 3) == 3 && at + 3 < to) {
      add(sum, half & 0x0FFF);
      return 4;
    }
    boolean jump = (half & 3) == 1 && (half >>> 13 == 1 || half >>> 13 >= 5);
    add(sum, jump ? half & 0xE003 : half);
    return 2;
  }

  private static void add(CRC32 sum, int half) {
    sum.update(half & 0xFF);
    sum.update(half >>> 8 & 0xFF);
  }
}
