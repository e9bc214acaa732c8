package dev.ullage.measure;

import dev.ullage.measure.Value.Constant;
import dev.ullage.measure.Value.OnStack;
import java.util.Arrays;
import java.util.TreeMap;

/** What is known of the registers, and of words that were saved on the stack. */
final class RegisterState implements StackState<RegisterState> {
  private final Convention convention;
  private final Value[] registers;

  /** Words by the depth of their first byte. Shared between copies, so never changed. */
  private TreeMap<Integer, Value> saved;

  private RegisterState(Convention convention, Value[] registers, TreeMap<Integer, Value> saved) {
    this.convention = convention;
    this.registers = registers;
    this.saved = saved;
  }

  /** The state at the first instruction of a routine. */
  static RegisterState atEntry(Convention convention) {
    Value[] registers = new Value[convention.registers()];
    Arrays.fill(registers, Value.UNKNOWN);
    registers[convention.stackPointer()] = new OnStack(0);
    registers[convention.link()] = new Value.ReturnAddress();
    convention.zero().ifPresent(zero -> registers[zero] = new Constant(0));
    return new RegisterState(convention, registers, new TreeMap<>());
  }

  @Override
  public RegisterState copy() {
    return new RegisterState(convention, registers.clone(), saved);
  }

  @Override
  public int depth() {
    return ((OnStack) registers[convention.stackPointer()]).depth();
  }

  @Override
  public boolean meet(RegisterState other) {
    boolean changed = false;
    for (int i = 0; i < registers.length; i++) {
      if (registers[i] != Value.UNKNOWN && !registers[i].equals(other.registers[i])) {
        registers[i] = Value.UNKNOWN;
        changed = true;
      }
    }
    if (saved != other.saved && !saved.equals(other.saved)) {
      TreeMap<Integer, Value> both = new TreeMap<>(saved);
      both.entrySet().retainAll(other.saved.entrySet());
      changed |= both.size() < saved.size();
      saved = both;
    }
    return changed;
  }

  Value get(int register) {
    return register < 0 ? Value.UNKNOWN : registers[register];
  }

  /**
   * Sets a register.
   *
   * @return false where the stack pointer is set to something that is not known to be on the stack
   */
  boolean set(int register, Value value) {
    boolean zero = convention.zero().isPresent() && convention.zero().getAsInt() == register;
    if (register < 0 || zero || convention.isProgramCounter(register)) {
      return true;
    }
    if (register == convention.stackPointer()) {
      // Start-up code says where the stack is, while it is empty.
      boolean starts = depth() == 0 && value instanceof Constant;
      if (!(value instanceof OnStack at)) {
        return starts;
      }
      dropBelow(at.depth());
    }
    registers[register] = value;
    return true;
  }

  private void dropBelow(int depth) {
    if (!saved.isEmpty() && saved.lastKey() > depth) {
      saved = new TreeMap<>(saved.headMap(depth, true));
    }
  }

  /** Sets every register of a list to something unknown. */
  boolean forget(int list) {
    boolean known = true;
    for (int rest = list; rest != 0; rest &= rest - 1) {
      known &= set(Integer.numberOfTrailingZeros(rest), Value.UNKNOWN);
    }
    return known;
  }

  /**
   * What a routine that was called may have changed.
   *
   * @param written registers that it changes, a bit for each
   */
  void forgetAfterCall(int written) {
    forget(convention.lostInCalls() & (written | 1 << convention.link()));
  }

  /** Remembers a word that is stored on the stack. */
  void save(int depth, Value value) {
    boolean worth = value != Value.UNKNOWN;
    if (worth || saved.containsKey(depth)) {
      TreeMap<Integer, Value> more = new TreeMap<>(saved);
      if (worth) {
        more.put(depth, value);
      } else {
        more.remove(depth);
      }
      saved = more;
    }
  }

  /** What was saved there. */
  Value saved(int depth) {
    return saved.getOrDefault(depth, Value.UNKNOWN);
  }
}
