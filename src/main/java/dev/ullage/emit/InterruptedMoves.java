package dev.ullage.emit;

import java.io.IOException;

/** The disk refused after some files had been moved. */
final class InterruptedMoves extends IOException {
  private static final long serialVersionUID = 1L;

  InterruptedMoves(IOException cause) {
    super(cause);
  }
}
