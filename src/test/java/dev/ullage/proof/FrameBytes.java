package dev.ullage.proof;

import dev.ullage.loop.Frame;
import dev.ullage.loop.Frame.ByteOrder;
import dev.ullage.loop.Frame.Crc8;
import java.util.ArrayList;
import java.util.List;

/** What a sensor sends for raw samples: the reverse of what the firmware does with it. */
final class FrameBytes {
  private static final int SKIPPED = 0x5A;
  // What stands in bits that do not count, above and below those that do.
  private static final long JUNK = 0x6D6D_6D6D_6D6DL;

  private final Frame frame;
  private final List<Integer> bytes = new ArrayList<>();
  private int checkBegins;

  private FrameBytes(Frame frame) {
    this.frame = frame;
  }

  /** The bytes of one frame, check bytes included. */
  static int[] of(Frame frame, long... raw) {
    FrameBytes made = new FrameBytes(frame);
    made.add(raw);
    return made.bytes.stream().mapToInt(Integer::intValue).toArray();
  }

  private void add(long[] raw) {
    boolean eachChecked = frame.check().filter(c -> c.over() == Crc8.Over.SAMPLE).isPresent();
    for (int i = 0; i < frame.skipBytes(); i++) {
      bytes.add(SKIPPED + i);
    }
    for (long sample : raw) {
      if (eachChecked) {
        checkBegins = bytes.size();
      }
      addSample(sample);
      if (eachChecked) {
        bytes.add(check());
      }
    }
    if (frame.check().isPresent() && !eachChecked) {
      bytes.add(check());
    }
  }

  private void addSample(long raw) {
    int shift = frame.shiftRight();
    long counted = ((1L << frame.rawBits()) - 1) << shift;
    long word = raw << shift & counted | JUNK & ~counted;
    for (int i = 0; i < frame.sampleBytes(); i++) {
      int place = frame.byteOrder() == ByteOrder.BIG ? frame.sampleBytes() - 1 - i : i;
      bytes.add((int) (word >> 8 * place & 0xFF));
    }
  }

  /** CRC-8, most significant bit first, by polynomial division. */
  private int check() {
    Crc8 rule = frame.check().orElseThrow();
    int rest = rule.init();
    for (int each : bytes.subList(checkBegins, bytes.size())) {
      rest ^= each;
      for (int bit = 0; bit < 8; bit++) {
        rest = rest << 1 ^ (rest >= 0x80 ? 0x100 | rule.poly() : 0);
      }
    }
    return rest;
  }
}
