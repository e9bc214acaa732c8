package dev.ullage.measure;

/**
 * One instruction of a machine with many like registers, as far as the stack and the flow of
 * control are concerned.
 *
 * @param to register that is written, or that a word is stored from
 * @param from first source, or base address
 * @param with second source
 * @param value constant, distance, or address of a place; what a base moves by
 * @param list registers, a bit for each
 * @param length in bytes
 */
record RegisterInstruction(
    Operation operation, int to, int from, int with, int value, int list, int length) {

  /** What an instruction does. */
  enum Operation {
    /** Writes something unknown to the registers of {@code list}. */
    OTHER,
    /** {@code to = value}. */
    CONSTANT,
    /** {@code to = from}. */
    MOVE,
    /** {@code to = from + value}. */
    ADD,
    /** {@code to = from + with}. */
    ADD_REGISTER,
    /** {@code to = from - with}. */
    SUBTRACT_REGISTER,
    /** {@code to = -from}. */
    NEGATE,
    /** {@code to = from << value}. */
    SHIFT_LEFT,
    /** Lowers to a multiple of {@code value}. */
    ALIGN,
    /** Sets the upper half of {@code to}. */
    MOVE_TOP,
    /** {@code to = word at from + value}. */
    LOAD,
    /** {@code to = word at from + with, which is unknown}. */
    LOAD_INDEXED,
    /** {@code to = word at value}. */
    LOAD_FIXED,
    /** {@code word at from + value = to}. */
    STORE,
    /** Lowers {@code from} by {@code value}, and stores {@code list} there. */
    PUSH,
    /** Loads {@code list} from {@code from}, and raises that by {@code value}. */
    POP,
    /** To the address {@code value}, or on. */
    BRANCH,
    /** To the address {@code value}, leaving the next one in {@code to}. */
    JUMP,
    /** To {@code from + value}, leaving the next one in {@code to}. */
    JUMP_REGISTER,
    /** To one of the places in a table behind it with entries of {@code value} bytes. */
    JUMP_TABLE,
    /** The next {@code value} instructions depend on a condition. */
    IF_THEN,
    /** Ends the service of an interrupt. */
    RETURN_FROM_INTERRUPT,
    /** May let interrupts in. */
    ENABLE_INTERRUPTS,
    /** Takes the stack somewhere else. */
    SET_STACK,
    /** Ends the program. */
    STOP
  }

  private static final int NONE = -1;

  static RegisterInstruction of(Operation operation, int length) {
    return new RegisterInstruction(operation, NONE, NONE, NONE, 0, 0, length);
  }

  /** Writes nothing that counts. */
  static RegisterInstruction nothing(int length) {
    return of(Operation.OTHER, length);
  }

  static RegisterInstruction writes(int register, int length) {
    return writesAll(1 << register, length);
  }

  static RegisterInstruction writesAll(int list, int length) {
    return new RegisterInstruction(Operation.OTHER, NONE, NONE, NONE, 0, list, length);
  }

  static RegisterInstruction constant(int to, int value, int length) {
    return new RegisterInstruction(Operation.CONSTANT, to, NONE, NONE, value, 0, length);
  }

  static RegisterInstruction with(Operation operation, int to, int from, int value, int length) {
    return new RegisterInstruction(operation, to, from, NONE, value, 0, length);
  }

  static RegisterInstruction of3(Operation operation, int to, int from, int with, int length) {
    return new RegisterInstruction(operation, to, from, with, 0, 0, length);
  }

  static RegisterInstruction many(Operation operation, int base, int list, int bytes, int length) {
    return new RegisterInstruction(operation, NONE, base, NONE, bytes, list, length);
  }

  /** To an address that the instruction names; {@code to} is -1 where it does not come back. */
  static RegisterInstruction jump(Operation operation, int to, int address, int length) {
    return new RegisterInstruction(operation, to, NONE, NONE, address, 0, length);
  }
}
