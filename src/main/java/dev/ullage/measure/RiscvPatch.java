package dev.ullage.measure;

/**
 * Fills in RISC-V code. Numbers of relocations: RISC-V ABIs Specification, table 3; where
 * instructions hold their constants: RISC-V Instruction Set Manual, volume I, 2.3 and 16.2.
 */
final class RiscvPatch {
  static final int RELAX = 51;
  private static final int WORD = 1;
  private static final int BRANCH = 16;
  private static final int JUMP = 17;
  private static final int CALL = 18;
  private static final int CALL_PLT = 19;
  private static final int UPPER = 26;
  private static final int LOWER = 27;
  private static final int LOWER_OF_STORE = 28;
  private static final int ALIGN = 43;
  private static final int SHORT_BRANCH = 44;
  private static final int SHORT_JUMP = 45;

  private RiscvPatch() {}

  /** Whether a relocation makes a jump or a call reach its goal. */
  static boolean isFlow(int type) {
    return isCall(type)
        || type == BRANCH
        || type == JUMP
        || type == SHORT_BRANCH
        || type == SHORT_JUMP;
  }

  /** A jump or a call in two instructions, which the linker makes one if it can. */
  static boolean isCall(int type) {
    return type == CALL || type == CALL_PLT;
  }

  /** The upper half of an address, which the linker leaves out if it can. */
  static boolean isUpper(int type) {
    return type == UPPER;
  }

  /** Whether a relocation says something of its place, and nothing of a name. */
  static boolean isIdle(int type) {
    return type == 0 || type == RELAX || type == ALIGN;
  }

  /**
   * Fills in a place.
   *
   * @param goal address of the name, with the addend
   * @return false where the goal is out of reach
   */
  static boolean apply(Patch at, int type, int goal) {
    int distance = goal - at.address();
    switch (type) {
      case WORD -> at.putWord(goal);
      case CALL, CALL_PLT -> {
        putUpper(at, distance);
        putLower(at.next(), distance);
      }
      case UPPER -> putUpper(at, goal);
      case LOWER -> putLower(at, goal);
      case LOWER_OF_STORE ->
          at.putWord(at.word() & 0x1FFF07F | (goal & 0xFE0) << 20 | (goal & 0x1F) << 7);
      case BRANCH -> at.putWord(at.word() & 0x1FFF07F | branch(distance));
      case JUMP -> at.putWord(at.word() & 0xFFF | jump(distance));
      case SHORT_BRANCH -> at.putHalf(at.half() & 0xE383 | shortBranch(distance));
      case SHORT_JUMP -> at.putHalf(at.half() & 0xE003 | shortJump(distance));
      default -> {}
    }
    return switch (type) {
      case BRANCH -> fits(distance, 13);
      case JUMP -> fits(distance, 21);
      case SHORT_BRANCH -> fits(distance, 9);
      case SHORT_JUMP -> fits(distance, 12);
      default -> true;
    };
  }

  private static boolean fits(int distance, int bits) {
    return distance << 32 - bits >> 32 - bits == distance;
  }

  private static void putUpper(Patch at, int value) {
    at.putWord(at.word() & 0xFFF | value + 0x800 & 0xFFFFF000);
  }

  private static void putLower(Patch at, int value) {
    at.putWord(at.word() & 0xFFFFF | value << 20);
  }

  private static int branch(int to) {
    return (to >>> 12 & 1) << 31
        | (to >>> 5 & 0x3F) << 25
        | (to & 0x1E) << 7
        | (to >>> 11 & 1) << 7;
  }

  private static int jump(int to) {
    return (to >>> 20 & 1) << 31 | (to >>> 1 & 0x3FF) << 21 | (to >>> 11 & 1) << 20 | to & 0xFF000;
  }

  private static int shortBranch(int to) {
    return (to >>> 8 & 1) << 12
        | (to >>> 3 & 3) << 10
        | (to >>> 6 & 3) << 5
        | (to >>> 1 & 3) << 3
        | (to >>> 5 & 1) << 2;
  }

  private static int shortJump(int to) {
    return (to >>> 11 & 1) << 12
        | (to >>> 4 & 1) << 11
        | (to >>> 8 & 3) << 9
        | (to >>> 10 & 1) << 8
        | (to >>> 6 & 1) << 7
        | (to >>> 7 & 1) << 6
        | (to >>> 1 & 7) << 3
        | (to >>> 5 & 1) << 2;
  }
}
