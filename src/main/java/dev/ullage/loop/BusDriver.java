package dev.ullage.loop;

/** How the bus is driven. */
public enum BusDriver {
  /** The smallest that the part can do. */
  AUTO,
  /** Two pins, moved by the program. */
  BITBANG,
  /** The part's hardware, waited for. */
  POLLED,
  /** The part's hardware with interrupts, and a send and a receive buffer. */
  BUFFERED
}
