package dev.ullage.measure;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/**
 * Which registers short routines change that call no other. Helpers of compilers know that of each
 * other, and keep return addresses where others may not: libgcc's division for RISC-V does.
 */
final class LeafRoutines {
  private static final int ALL = -1;
  private static final int LONGEST = 100;

  private final RegisterMachine.Decoder decoder;
  private final int link;
  private final Map<Integer, Integer> written = new HashMap<>();

  LeafRoutines(RegisterMachine.Decoder decoder, int link) {
    this.decoder = decoder;
    this.link = link;
  }

  /** Registers that are written on any path from a place on, a bit for each; all if in doubt. */
  int writtenBy(CodeSection code, int routine) {
    return written.computeIfAbsent(routine, start -> follow(code, start));
  }

  private int follow(CodeSection code, int start) {
    Set<Integer> seen = new HashSet<>();
    Deque<Integer> work = new ArrayDeque<>(Set.of(start));
    int list = 0;
    while (!work.isEmpty()) {
      int at = work.pop();
      if (!seen.add(at)) {
        continue;
      }
      if (seen.size() > LONGEST || !code.holds(at)) {
        return ALL;
      }
      int next = code.holds(at + 2) ? code.half(at + 2) : 0;
      RegisterInstruction is = decoder.decode(at, code.half(at), next);
      switch (is.operation()) {
        case BRANCH, JUMP -> work.push(is.value());
        default -> {}
      }
      if (leadsElsewhere(is)) {
        return ALL;
      }
      boolean stores = is.operation() == RegisterInstruction.Operation.STORE;
      list |= is.list() | (is.to() >= 0 && !stores ? 1 << is.to() : 0);
      boolean leaves =
          switch (is.operation()) {
            case JUMP, JUMP_REGISTER, STOP, RETURN_FROM_INTERRUPT -> true;
            default -> false;
          };
      if (!leaves) {
        work.push(at + is.length());
      }
    }
    return list;
  }

  /** To what is not known from here, or away from the registers of the caller. */
  private boolean leadsElsewhere(RegisterInstruction is) {
    return switch (is.operation()) {
      case JUMP -> is.to() >= 0;
      case JUMP_REGISTER -> is.to() >= 0 || is.from() != link;
      case JUMP_TABLE, PUSH, POP, SET_STACK -> true;
      default -> false;
    };
  }
}
