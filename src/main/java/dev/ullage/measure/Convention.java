package dev.ullage.measure;

import java.util.OptionalInt;

/**
 * How routines of a machine with a link register agree on registers.
 *
 * @param registers how many there are
 * @param stackPointer its number
 * @param link the register that a call leaves the return address in
 * @param programCounter its number, where it is one of the registers
 * @param zero the register that is always 0, if there is one
 * @param lostInCalls registers that a called routine may change, a bit for each
 * @param stackAlignment what the stack pointer is a multiple of as a routine begins
 */
record Convention(
    int registers,
    int stackPointer,
    int link,
    OptionalInt programCounter,
    OptionalInt zero,
    int lostInCalls,
    int stackAlignment) {

  /**
   * Cortex-M. Registers and alignment: Procedure Call Standard for the Arm Architecture (AAPCS32),
   * 6.1.1 and 6.2.1.2: r0 to r3, r12 and lr are lost, the stack is aligned to 8.
   */
  static final Convention ARM =
      new Convention(16, 13, 14, OptionalInt.of(15), OptionalInt.empty(), 0x500F, 8);

  /**
   * RISC-V. RISC-V ABIs Specification, 1.1 (ra, t0 to t6 and a0 to a7 are lost) and 2.1; the stack
   * is aligned to 16, with half of the registers to 4.
   */
  static Convention riscv(boolean half) {
    return new Convention(
        32, 2, 1, OptionalInt.empty(), OptionalInt.of(0), 0xF003FCE2, half ? 4 : 16);
  }

  boolean isProgramCounter(int register) {
    return programCounter.isPresent() && programCounter.getAsInt() == register;
  }
}
