package dev.ullage.measure;

import dev.ullage.measure.Value.Constant;
import dev.ullage.measure.Value.FromTable;
import dev.ullage.measure.Value.Near;
import dev.ullage.measure.Value.OnStack;
import java.util.OptionalInt;

/** What instructions that lead to the next one do to registers and to the stack. */
final class Calculation {
  private Calculation() {}

  /** Follows an instruction that leads to the next; false where the stack is lost. */
  static boolean follow(
      CodeSection code, RegisterInstruction is, RegisterState state, Convention convention) {
    return switch (is.operation()) {
      case OTHER -> state.forget(is.list());
      case SET_STACK -> false;
      case PUSH -> push(is, state);
      case STORE -> {
        if (state.get(is.from()) instanceof OnStack at) {
          state.save(at.depth() - is.value(), state.get(is.to()));
        }
        yield true;
      }
      default -> state.set(is.to(), result(code, is, state, convention));
    };
  }

  /** What an instruction puts into the register that it writes. */
  static Value result(
      CodeSection code, RegisterInstruction is, RegisterState state, Convention convention) {
    Value from = state.get(is.from());
    return switch (is.operation()) {
      case CONSTANT -> new Constant(is.value());
      case MOVE -> from;
      case ADD -> from.plus(is.value());
      case ADD_REGISTER -> from.plus(state.get(is.with()));
      case SUBTRACT_REGISTER -> from.minus(state.get(is.with()));
      case NEGATE -> new Constant(0).minus(from);
      case SHIFT_LEFT ->
          from instanceof Constant number
              ? new Constant(number.value() << is.value())
              : is.value() == 0 ? from : Value.UNKNOWN;
      case ALIGN -> from.alignedTo(is.value(), convention.stackAlignment());
      case MOVE_TOP ->
          state.get(is.to()) instanceof Constant number
              ? new Constant(number.value() & 0xFFFF | is.value() << 16)
              : Value.UNKNOWN;
      case LOAD -> load(code, from.plus(is.value()), state);
      case LOAD_INDEXED ->
          from instanceof Constant table ? entry(code, table.value()) : Value.UNKNOWN;
      case LOAD_FIXED -> load(code, new Constant(is.value()), state);
      default -> Value.UNKNOWN;
    };
  }

  private static Value load(CodeSection code, Value address, RegisterState state) {
    if (address instanceof OnStack at) {
      return state.saved(at.depth());
    }
    if (address instanceof Near table) {
      return entry(code, table.start());
    }
    if (address instanceof Constant at) {
      OptionalInt word = code.constant(at.value());
      return word.isPresent() ? new Constant(word.getAsInt()) : Value.UNKNOWN;
    }
    return Value.UNKNOWN;
  }

  private static Value entry(CodeSection code, int table) {
    return code.constant(table).isPresent() ? new FromTable(table, 0) : Value.UNKNOWN;
  }

  private static boolean push(RegisterInstruction is, RegisterState state) {
    Value lowered = state.get(is.from()).plus(-is.value());
    boolean known = state.set(is.from(), lowered);
    if (known && lowered instanceof OnStack at) {
      int depth = at.depth();
      for (int rest = is.list(); rest != 0; rest &= rest - 1) {
        state.save(depth, state.get(Integer.numberOfTrailingZeros(rest)));
        depth -= 4;
      }
    }
    return known;
  }
}
