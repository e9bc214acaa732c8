package dev.ullage.replay;

import dev.ullage.loop.Frame;

/** From the bytes of a frame to its samples, as the emitted C does it. */
final class FrameBytes {
  private static final int TOP = 0x80;

  private final Frame frame;

  FrameBytes(Frame frame) {
    this.frame = frame;
  }

  /**
   * The samples in counts; none if a check byte is wrong.
   *
   * @param bytes as many as the frame has, each from 0 to 255
   */
  long[] samples(int[] bytes) {
    long[] raw = new long[frame.samples()];
    boolean perSample = frame.check().filter(c -> c.over() == Frame.Crc8.Over.SAMPLE).isPresent();
    int at = frame.skipBytes();
    for (int i = 0; i < raw.length; i++) {
      raw[i] = sample(bytes, at);
      if (perSample && !checks(bytes, at, frame.sampleBytes() + 1)) {
        return new long[0];
      }
      at += frame.sampleBytes() + (perSample ? 1 : 0);
    }
    boolean whole = frame.check().isEmpty() || perSample || checks(bytes, 0, bytes.length);
    return whole ? raw : new long[0];
  }

  private long sample(int[] bytes, int first) {
    long word = 0;
    for (int i = 0; i < frame.sampleBytes(); i++) {
      boolean big = frame.byteOrder() == Frame.ByteOrder.BIG;
      int place = big ? frame.sampleBytes() - 1 - i : i;
      word |= (long) bytes[first + i] << 8 * place;
    }
    long counts = word >> frame.shiftRight() & (1L << frame.rawBits()) - 1;
    long sign = 1L << frame.rawBits() - 1;
    return frame.signed() ? (counts ^ sign) - sign : counts;
  }

  /** True if the last of these bytes is the CRC-8 of the others: then the rest of all is zero. */
  private boolean checks(int[] bytes, int first, int count) {
    Frame.Crc8 crc = frame.check().orElseThrow();
    int rest = crc.init();
    for (int i = first; i < first + count; i++) {
      rest ^= bytes[i];
      for (int bit = 0; bit < 8; bit++) {
        rest = (rest & TOP) != 0 ? rest << 1 & 0xFF ^ crc.poly() : rest << 1;
      }
    }
    return rest == 0;
  }
}
