package dev.ullage.measure;

/** What a walk knows of the contents of a register or of a word on the stack. */
sealed interface Value {
  /** Nothing. */
  record Unknown() implements Value {}

  /** Where the routine has to return to. */
  record ReturnAddress() implements Value {}

  /** An address on the stack: so many bytes below where the stack was as the routine began. */
  record OnStack(int depth) implements Value {}

  /** A number. */
  record Constant(int value) implements Value {}

  /** A number and something unknown: what is looked up in a table that starts there. */
  record Near(int start) implements Value {}

  /** A word of the table that starts there, and a number added to it. */
  record FromTable(int start, int base) implements Value {}

  Value UNKNOWN = new Unknown();

  /** The sum of two of them. */
  default Value plus(Value other) {
    if (other instanceof Constant number) {
      return this instanceof Unknown ? new Near(number.value()) : plus(number.value());
    }
    return this instanceof Constant ? other.plus(this) : UNKNOWN;
  }

  /** The sum of this and a number. */
  default Value plus(int number) {
    if (number == 0) {
      return this;
    }
    if (this instanceof OnStack at) {
      return new OnStack(at.depth() - number);
    }
    if (this instanceof Constant is) {
      return new Constant(is.value() + number);
    }
    if (this instanceof Near table) {
      return new Near(table.start() + number);
    }
    if (this instanceof FromTable entry) {
      return new FromTable(entry.start(), entry.base() + number);
    }
    return UNKNOWN;
  }

  /** The difference between this and another. */
  default Value minus(Value other) {
    return other instanceof Constant number ? plus(-number.value()) : UNKNOWN;
  }

  /**
   * This, rounded down to a multiple of a power of two. The stack may go that much further down.
   *
   * @param stackAlignment what the stack was a multiple of as the routine began
   */
  default Value alignedTo(int multiple, int stackAlignment) {
    if (this instanceof OnStack at) {
      int rounded = (at.depth() + multiple - 1) & -multiple;
      return new OnStack(rounded + Math.max(0, multiple - stackAlignment));
    }
    return this instanceof Constant number ? new Constant(number.value() & -multiple) : UNKNOWN;
  }
}
