package dev.ullage.sizing;

/** What the kind of a core says of linking. */
enum Machine {
  /** Code lies at even addresses, one piece behind the other. */
  AVR(1, 0),
  /**
   * Pieces are aligned and sorted. An interrupt pushes 32 bytes, and 4 to align them to 8: ARMv7-M
   * Architecture Reference Manual (DDI 0403E), B1.5.6 and B1.5.7.
   */
  CORTEX_M(4, 32 + 4),
  /** Pieces are aligned and sorted, and the linker shortens them. */
  RISCV(4, 0);

  private final int grain;
  private final int interruptFrame;

  Machine(int grain, int interruptFrame) {
    this.grain = grain;
    this.interruptFrame = interruptFrame;
  }

  static Machine of(String codeClass) {
    if (codeClass.startsWith("cortex-m")) {
      return CORTEX_M;
    }
    return codeClass.startsWith("rv32") ? RISCV : AVR;
  }

  /** What the linker script fills program memory and RAM up to a multiple of, in bytes. */
  int grain() {
    return grain;
  }

  /** What the hardware puts on the stack before a handler starts; bytes. */
  int interruptFrame() {
    return interruptFrame;
  }

  static int roundUp(int bytes, int grain) {
    return (bytes + grain - 1) / grain * grain;
  }
}
