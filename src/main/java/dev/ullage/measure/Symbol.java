package dev.ullage.measure;

import java.util.List;
import java.util.Optional;

/**
 * A function or an object with static storage, and what it leads to.
 *
 * <p>The linker keeps or drops whole sections. Where a section holds several symbols, references in
 * a ring tie them together, so that whoever follows the edges keeps them all. In object files for
 * ARM and RISC-V the first of them has all the bytes, for they move as one.
 *
 * @param local true where other object files cannot name it
 * @param bytes how long it is; 0 for a second name of the same place
 * @param ownStack what it holds at its deepest, in bytes; return address and calls excluded
 * @param edges in the order of the instructions
 * @param unbounded why its stack has no bound, and where, if it has none
 * @param place what the linker knows of where it goes
 */
public record Symbol(
    String name,
    boolean local,
    Kind kind,
    int bytes,
    int ownStack,
    List<Edge> edges,
    Optional<String> unbounded,
    Place place) {

  public Symbol {
    edges = List.copyOf(edges);
  }

  /** A symbol that can go anywhere. */
  public Symbol(
      String name,
      boolean local,
      Kind kind,
      int bytes,
      int ownStack,
      List<Edge> edges,
      Optional<String> unbounded) {
    this(name, local, kind, bytes, ownStack, edges, unbounded, Place.ANYWHERE);
  }

  /** Where a symbol goes. */
  public sealed interface Place {
    Place ANYWHERE = new Aligned(1);

    /** To an address that is a multiple of so many bytes. */
    record Aligned(int bytes) implements Place {}

    /** So far behind the start of another symbol. */
    record Inside(String symbol, int offset) implements Place {}
  }

  /** Where the bytes of a symbol go. */
  public enum Kind {
    /** Instructions: program memory. */
    CODE(true, false),
    /** Constants that stay in program memory. */
    RODATA(true, false),
    /** Initialised variables and constants: RAM, and their first values in program memory. */
    DATA(true, true),
    /** Variables that start at zero or at nothing: RAM. */
    BSS(false, true),
    /** Data EEPROM: neither. */
    EEPROM(false, false),
    /** Instructions that run from RAM: there, and in program memory to be copied from. */
    RAM_CODE(true, true);

    private final boolean flash;
    private final boolean ram;

    Kind(boolean flash, boolean ram) {
      this.flash = flash;
      this.ram = ram;
    }

    public boolean inFlash() {
      return flash;
    }

    public boolean inRam() {
      return ram;
    }
  }

  /**
   * A way to another symbol.
   *
   * @param depth bytes on the stack there, return addresses of caller and call excluded; 0 for a
   *     reference
   * @param sites where instructions are that the linker shortens if it can, in bytes from the start
   *     of the section; of the edges to one target, the first has all of them
   */
  public record Edge(String target, int depth, Type type, List<Integer> sites) {

    public Edge {
      sites = List.copyOf(sites);
    }

    /** A way that the linker takes as it is. */
    public Edge(String target, int depth, Type type) {
      this(target, depth, type, List.of());
    }

    /** How the other symbol is reached. */
    public enum Type {
      /** Called: a return address goes on the stack. */
      CALL,
      /** Jumped to, or run into. */
      TAIL,
      /** Named by an address: kept by the linker, nothing for the stack. */
      REFERENCE
    }
  }
}
