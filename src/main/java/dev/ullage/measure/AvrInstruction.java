package dev.ullage.measure;

/**
 * One AVR instruction, as far as the stack and the flow of control are concerned. Encodings: AVR
 * Instruction Set Manual, DS40002198.
 *
 * @param to destination register; first of the pair for {@code ADD_WORD} and {@code MOVE_WORD}
 * @param from source register
 * @param value constant, I/O address, or distance in bytes from the next instruction; for an
 *     absolute jump or call the byte address
 * @param length in bytes, 2 or 4
 */
record AvrInstruction(Operation operation, int to, int from, int value, int length) {

  /** What an instruction does; everything without a bearing on the stack is {@code OTHER}. */
  enum Operation {
    PUSH,
    POP,
    IN,
    OUT,
    MOVE,
    MOVE_WORD,
    LOAD_CONSTANT,
    ADD_WORD,
    SUBTRACT,
    SUBTRACT_WITH_CARRY,
    SKIP,
    BRANCH,
    JUMP,
    JUMP_ABSOLUTE,
    JUMP_INDIRECT,
    CALL,
    CALL_ABSOLUTE,
    CALL_INDIRECT,
    RETURN,
    ENABLE_INTERRUPTS,
    /** Writes {@code to}, which is -1 for nothing. */
    OTHER,
    /** Writes {@code to} and the register after it. */
    OTHER_WORD
  }

  private static final int NOTHING = -1;

  /** Reads the instruction that starts with these words; the second counts for long ones only. */
  static AvrInstruction decode(int word, int next) {
    return switch (word >>> 12) {
      case 0x0, 0x1, 0x2 -> arithmetic(word);
      case 0x3 -> other(NOTHING);
      case 0x4 -> immediate(Operation.SUBTRACT_WITH_CARRY, word);
      case 0x5 -> immediate(Operation.SUBTRACT, word);
      case 0x6, 0x7 -> other(upper(word));
      case 0x8, 0xA -> other((word & 0x0200) == 0 ? register(word) : NOTHING);
      case 0x9 -> miscellaneous(word, next);
      case 0xB -> inOrOut(word);
      case 0xC -> of(Operation.JUMP, NOTHING, NOTHING, signed(word, 12) * 2, 2);
      case 0xD -> of(Operation.CALL, NOTHING, NOTHING, signed(word, 12) * 2, 2);
      case 0xE -> immediate(Operation.LOAD_CONSTANT, word);
      default -> branchOrBit(word);
    };
  }

  private static AvrInstruction arithmetic(int word) {
    int source = (word & 0xF) | (word >>> 5 & 0x10);
    return switch (word >>> 10) {
      case 0x00 -> firstBlock(word);
      case 0x01, 0x05 -> other(NOTHING); // cpc, cp
      case 0x04 -> of(Operation.SKIP, NOTHING, NOTHING, 0, 2); // cpse
      case 0x0B -> of(Operation.MOVE, register(word), source, 0, 2);
      default -> other(register(word));
    };
  }

  private static AvrInstruction firstBlock(int word) {
    return switch (word >>> 8) {
      case 0x00 -> other(NOTHING); // nop
      case 0x01 -> of(Operation.MOVE_WORD, (word >>> 4 & 0xF) * 2, (word & 0xF) * 2, 0, 2);
      default -> word(0); // muls, mulsu, fmul
    };
  }

  private static AvrInstruction miscellaneous(int word, int next) {
    return switch (word >>> 8 & 0xF) {
      case 0x0, 0x1 -> load(word);
      case 0x2, 0x3 -> store(word);
      case 0x4, 0x5 -> oneOperand(word, next);
      case 0x6 -> of(Operation.ADD_WORD, pair(word), NOTHING, wordConstant(word), 2);
      case 0x7 -> of(Operation.ADD_WORD, pair(word), NOTHING, -wordConstant(word), 2);
      case 0x9, 0xB -> of(Operation.SKIP, NOTHING, NOTHING, 0, 2); // sbic, sbis
      case 0xC, 0xD, 0xE, 0xF -> word(0); // mul
      default -> other(NOTHING); // cbi, sbi
    };
  }

  private static AvrInstruction load(int word) {
    return switch (word & 0xF) {
      case 0x0 -> of(Operation.OTHER, register(word), NOTHING, 0, 4); // lds
      case 0xF -> of(Operation.POP, register(word), NOTHING, 0, 2);
      default -> other(register(word));
    };
  }

  private static AvrInstruction store(int word) {
    return switch (word & 0xF) {
      case 0x0 -> of(Operation.OTHER, NOTHING, NOTHING, 0, 4); // sts
      case 0x4, 0x5, 0x6, 0x7 -> other(register(word)); // xch, las, lac, lat
      case 0xF -> of(Operation.PUSH, NOTHING, register(word), 0, 2);
      default -> other(NOTHING);
    };
  }

  private static AvrInstruction oneOperand(int word, int next) {
    int address = ((word >>> 3 & 0x3E) | (word & 1)) << 16 | next;
    return switch (word & 0xF) {
      case 0x8 -> control(word);
      case 0x9 ->
          of(
              (word & 0x0100) == 0 ? Operation.JUMP_INDIRECT : Operation.CALL_INDIRECT,
              -1,
              -1,
              0,
              2);
      case 0xB -> other(NOTHING); // des
      case 0xC, 0xD -> of(Operation.JUMP_ABSOLUTE, NOTHING, NOTHING, address * 2, 4);
      case 0xE, 0xF -> of(Operation.CALL_ABSOLUTE, NOTHING, NOTHING, address * 2, 4);
      default -> other(register(word));
    };
  }

  private static AvrInstruction control(int word) {
    return switch (word) {
      case 0x9478 -> of(Operation.ENABLE_INTERRUPTS, NOTHING, NOTHING, 0, 2);
      case 0x9508, 0x9518 -> of(Operation.RETURN, NOTHING, NOTHING, 0, 2);
      case 0x95C8, 0x95D8 -> other(0); // lpm and elpm into r0
      default -> other(NOTHING);
    };
  }

  private static AvrInstruction inOrOut(int word) {
    int address = (word & 0xF) | (word >>> 5 & 0x30);
    return (word & 0x0800) == 0
        ? of(Operation.IN, register(word), NOTHING, address, 2)
        : of(Operation.OUT, NOTHING, register(word), address, 2);
  }

  private static AvrInstruction branchOrBit(int word) {
    return switch (word >>> 9 & 7) {
      case 4 -> other(register(word)); // bld
      case 5 -> other(NOTHING); // bst
      case 6, 7 -> of(Operation.SKIP, NOTHING, NOTHING, 0, 2); // sbrc, sbrs
      default -> of(Operation.BRANCH, NOTHING, NOTHING, signed(word >>> 3, 7) * 2, 2);
    };
  }

  private static AvrInstruction immediate(Operation operation, int word) {
    return of(operation, upper(word), NOTHING, (word >>> 4 & 0xF0) | (word & 0xF), 2);
  }

  private static AvrInstruction other(int register) {
    return of(Operation.OTHER, register, NOTHING, 0, 2);
  }

  private static AvrInstruction word(int register) {
    return of(Operation.OTHER_WORD, register, NOTHING, 0, 2);
  }

  private static AvrInstruction of(Operation operation, int to, int from, int value, int length) {
    return new AvrInstruction(operation, to, from, value, length);
  }

  private static int register(int word) {
    return word >>> 4 & 0x1F;
  }

  private static int upper(int word) {
    return 16 + (word >>> 4 & 0xF);
  }

  private static int pair(int word) {
    return 24 + (word >>> 3 & 6);
  }

  private static int wordConstant(int word) {
    return (word >>> 2 & 0x30) | (word & 0xF);
  }

  private static int signed(int field, int bits) {
    return field << (32 - bits) >> (32 - bits);
  }
}
