package dev.ullage.report;

import java.util.List;

/**
 * A memory drawn in characters: what fills it from its start, then what is free. What is beyond its
 * end is drawn as {@code !}.
 *
 * @param capacity of the memory, in bytes
 */
record MemoryBar(int capacity, List<Piece> pieces) {
  private static final char FREE = '.';
  private static final char BEYOND = '!';

  MemoryBar {
    pieces = List.copyOf(pieces);
  }

  /** Bytes in a row that are drawn with the same character. */
  record Piece(char drawnAs, int bytes) {}

  /** The bar, {@code width} characters long with its brackets. */
  String draw(int width) {
    int cells = width - 2;
    StringBuilder bar = new StringBuilder("[");
    for (int i = 0; i < cells; i++) {
      bar.append(at((2L * i + 1) * scale() / (2L * cells)));
    }
    return bar.append(']').toString();
  }

  /** Bytes from the left to the right end: the capacity, or more where more is needed. */
  private int scale() {
    return Math.max(capacity, pieces.stream().mapToInt(Piece::bytes).sum());
  }

  /** How the byte at this place is drawn. */
  private char at(long place) {
    if (place >= capacity) {
      return BEYOND;
    }
    long end = 0;
    for (Piece piece : pieces) {
      end += piece.bytes();
      if (place < end) {
        return piece.drawnAs();
      }
    }
    return FREE;
  }
}
