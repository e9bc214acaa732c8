package dev.ullage.loop;

import java.util.Optional;

/**
 * The bytes of one reading.
 *
 * @param skipBytes leading bytes to drop
 * @param samples samples in a frame, 1 to 64
 * @param columns samples in a row of a grid; for pictures only
 * @param sampleBytes bytes of a sample, 1 to 4, without its check byte
 * @param shiftRight bits dropped after assembly, at the low end
 * @param bits bits that count after that, the sign bit of a signed sample the highest of them; 0
 *     for all that are left. Higher ones (flags, or a sign that is not carried on) are dropped
 */
public record Frame(
    int skipBytes,
    int samples,
    int columns,
    int sampleBytes,
    ByteOrder byteOrder,
    boolean signed,
    int shiftRight,
    int bits,
    Optional<Crc8> check) {

  /** Which byte of a sample comes first. */
  public enum ByteOrder {
    BIG,
    LITTLE
  }

  /** A check byte after each sample, or one after the whole frame (skipped bytes included). */
  public record Crc8(int poly, int init, Over over) {
    /** What a check byte covers. */
    public enum Over {
      SAMPLE,
      FRAME
    }
  }

  /** Bytes on the bus from the first skipped one to the last check byte. */
  public int bytes() {
    return skipBytes + samples * sampleBytes + checkBytes();
  }

  private int checkBytes() {
    if (check.isEmpty()) {
      return 0;
    }
    return check.get().over() == Crc8.Over.SAMPLE ? samples : 1;
  }

  /** Bits of a raw sample. */
  public int rawBits() {
    return bits == 0 ? 8 * sampleBytes - shiftRight : bits;
  }

  /** The smallest raw sample there can be. */
  public long rawMin() {
    return signed ? -(1L << (rawBits() - 1)) : 0;
  }

  /** The largest raw sample there can be. */
  public long rawMax() {
    return signed ? (1L << (rawBits() - 1)) - 1 : (1L << rawBits()) - 1;
  }
}
