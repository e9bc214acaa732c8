package dev.ullage.measure;

/**
 * A place in code or data that is filled in.
 *
 * @param bytes of the section, which change
 * @param at where the place is among them
 * @param address of the place
 */
record Patch(byte[] bytes, int at, int address) {
  int half() {
    return half(0);
  }

  int half(int behind) {
    return bytes[at + behind] & 0xFF | (bytes[at + behind + 1] & 0xFF) << 8;
  }

  int word() {
    return half(0) | half(2) << 16;
  }

  void putHalf(int value) {
    putHalf(0, value);
  }

  void putHalf(int behind, int value) {
    bytes[at + behind] = (byte) value;
    bytes[at + behind + 1] = (byte) (value >>> 8);
  }

  void putWord(int value) {
    putHalf(0, value);
    putHalf(2, value >>> 16);
  }

  /** The four bytes behind these. */
  Patch next() {
    return new Patch(bytes, at + 4, address + 4);
  }
}
