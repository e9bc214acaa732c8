package dev.ullage.loop;

/** What must stay free: a share of the flash, and bytes of RAM. */
public record Margin(int flashPercent, int ramBytes) {
  private static final long PERCENT = 100;

  /** Bytes that must stay free of a flash of this size: a byte that is begun counts. */
  public int flashBytes(int capacity) {
    return (int) ((capacity * (long) flashPercent + PERCENT - 1) / PERCENT);
  }
}
