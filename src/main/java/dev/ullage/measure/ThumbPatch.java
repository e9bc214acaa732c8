package dev.ullage.measure;

/**
 * Fills in Thumb code. Numbers of relocations and how the place holds their addend: ELF for the Arm
 * Architecture (AAELF32), 5.6.1.
 */
final class ThumbPatch {
  private static final int ABSOLUTE = 2;
  private static final int TARGET1 = 38;
  private static final int CALL = 10;
  private static final int JUMP_24 = 30;
  private static final int JUMP_11 = 102;
  private static final int JUMP_8 = 103;

  private ThumbPatch() {}

  /** Whether a relocation makes a jump or a call reach its goal. */
  static boolean isFlow(int type) {
    return type == CALL || type == JUMP_24 || type == JUMP_11 || type == JUMP_8;
  }

  /** What the place adds to the address of the name. */
  static int addend(Patch at, int type) {
    return switch (type) {
      case ABSOLUTE, TARGET1 -> at.word();
      case CALL, JUMP_24 -> far(at) + 4;
      case JUMP_11 -> (at.half() << 21 >> 20) + 4;
      case JUMP_8 -> (at.half() << 24 >> 23) + 4;
      default -> 0;
    };
  }

  /**
   * Fills in a place.
   *
   * @param goal address of the name, with the addend
   * @return false where the goal is out of reach
   */
  static boolean apply(Patch at, int type, int goal) {
    int distance = (goal & ~1) - at.address() - 4;
    switch (type) {
      case ABSOLUTE, TARGET1 -> at.putWord(goal);
      case CALL, JUMP_24 -> putFar(at, distance);
      case JUMP_11 -> at.putHalf(at.half() & 0xF800 | distance >> 1 & 0x7FF);
      case JUMP_8 -> at.putHalf(at.half() & 0xFF00 | distance >> 1 & 0xFF);
      default -> {}
    }
    return switch (type) {
      case JUMP_11 -> distance >= -2048 && distance < 2048;
      case JUMP_8 -> distance >= -256 && distance < 256;
      default -> true;
    };
  }

  /** The distance in a long branch: ARMv7-M Architecture Reference Manual, A7.7.12, T4. */
  private static int far(Patch at) {
    int high = at.half();
    int low = at.half(2);
    int sign = high >>> 10 & 1;
    int i1 = ~(low >>> 13 ^ sign) & 1;
    int i2 = ~(low >>> 11 ^ sign) & 1;
    return -sign << 24 | i1 << 23 | i2 << 22 | (high & 0x3FF) << 12 | (low & 0x7FF) << 1;
  }

  private static void putFar(Patch at, int distance) {
    int sign = distance >>> 31;
    int j1 = ~(distance >>> 23 ^ sign) & 1;
    int j2 = ~(distance >>> 22 ^ sign) & 1;
    at.putHalf(at.half() & 0xF800 | sign << 10 | distance >>> 12 & 0x3FF);
    at.putHalf(2, at.half(2) & 0xD000 | j1 << 13 | j2 << 11 | distance >>> 1 & 0x7FF);
  }
}
