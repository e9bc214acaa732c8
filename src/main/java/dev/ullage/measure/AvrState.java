package dev.ullage.measure;

import java.util.Arrays;
import java.util.OptionalInt;

/**
 * What is known at one instruction: bytes on the stack since the routine began, and which register
 * pairs hold an address on the stack. Compilers make room for local variables by copying the stack
 * pointer into a pair, subtracting, and copying it back.
 *
 * <p>A pair is told by its even register and holds the depth that the stack would have if the pair
 * became the stack pointer.
 */
final class AvrState implements StackState<AvrState> {
  private static final int LOW = 0x3D;
  private static final int HIGH = 0x3E;
  private static final int UNKNOWN = Integer.MIN_VALUE;

  private int depth;
  private final int[] pairs;
  private int wide;

  private AvrState(int depth, int[] pairs, int wide) {
    this.depth = depth;
    this.pairs = pairs;
    this.wide = wide;
  }

  /** The state at the first instruction of a routine. */
  static AvrState atEntry() {
    int[] pairs = new int[16];
    Arrays.fill(pairs, UNKNOWN);
    return new AvrState(0, pairs, 0);
  }

  @Override
  public AvrState copy() {
    return new AvrState(depth, pairs.clone(), wide);
  }

  @Override
  public int depth() {
    return depth;
  }

  void grow(int bytes) {
    depth += bytes;
  }

  @Override
  public boolean meet(AvrState other) {
    boolean changed = false;
    for (int i = 0; i < pairs.length; i++) {
      if (pairs[i] != UNKNOWN && (pairs[i] != other.pairs[i] || isWide(i) != other.isWide(i))) {
        pairs[i] = UNKNOWN;
        changed = true;
      }
    }
    return changed;
  }

  /** Forgets the registers that a called function may use: r0, r18 to r27, r30, r31. */
  void forgetAfterCall() {
    pairs[0] = UNKNOWN;
    Arrays.fill(pairs, 9, 14, UNKNOWN);
    pairs[15] = UNKNOWN;
  }

  /**
   * Follows an instruction that does not change the flow of control.
   *
   * @return false where the stack pointer is set to something unknown
   */
  boolean follow(AvrInstruction instruction) {
    int to = instruction.to();
    switch (instruction.operation()) {
      case PUSH -> depth++;
      case POP -> {
        depth--;
        forget(to);
      }
      case IN -> input(to, instruction.value());
      case OUT -> {
        return instruction.value() != LOW || setStackPointer(instruction.from());
      }
      case MOVE -> move(to, instruction.from());
      case MOVE_WORD -> {
        pairs[to / 2] = pairs[instruction.from() / 2];
        setWide(to / 2, isWide(instruction.from() / 2));
      }
      case ADD_WORD -> add(to / 2, -instruction.value());
      case SUBTRACT -> {
        if (to % 2 == 0) {
          add(to / 2, instruction.value());
        }
      }
      case SUBTRACT_WITH_CARRY -> {
        if (to % 2 == 1) {
          add(to / 2, instruction.value() << 8);
        } else {
          forget(to);
        }
      }
      case OTHER, LOAD_CONSTANT -> forget(to);
      case OTHER_WORD -> {
        forget(to);
        forget(to + 1);
      }
      default -> {}
    }
    return true;
  }

  private void input(int to, int address) {
    forget(to);
    if (address == LOW && to % 2 == 0) {
      pairs[to / 2] = depth;
      setWide(to / 2, false);
    } else if (address == HIGH && to % 2 == 1 && pairs[to / 2] == depth) {
      setWide(to / 2, true);
    }
  }

  private void move(int to, int from) {
    if (to % 2 == 0) {
      pairs[to / 2] = from % 2 == 0 ? pairs[from / 2] : UNKNOWN;
      setWide(to / 2, false);
    } else {
      boolean completes = from % 2 == 1 && pairs[to / 2] == pairs[from / 2] && isWide(from / 2);
      setWide(to / 2, completes);
    }
  }

  private boolean setStackPointer(int from) {
    OptionalInt value = from % 2 == 0 ? known(from / 2) : OptionalInt.empty();
    if (value.isEmpty()) {
      return false;
    }
    // Sums wrap around as the registers do; a frame is smaller than half of what they can hold.
    int change = value.getAsInt() - depth;
    depth += isWide(from / 2) ? (short) change : (byte) change;
    return true;
  }

  private OptionalInt known(int pair) {
    return pairs[pair] == UNKNOWN ? OptionalInt.empty() : OptionalInt.of(pairs[pair]);
  }

  private void add(int pair, int bytes) {
    if (pairs[pair] != UNKNOWN) {
      pairs[pair] += bytes;
    }
  }

  private void forget(int register) {
    if (register < 0) {
      return;
    }
    if (register % 2 == 0) {
      pairs[register / 2] = UNKNOWN;
    } else {
      setWide(register / 2, false);
    }
  }

  private boolean isWide(int pair) {
    return (wide >>> pair & 1) != 0;
  }

  private void setWide(int pair, boolean on) {
    wide = on ? wide | 1 << pair : wide & ~(1 << pair);
  }
}
