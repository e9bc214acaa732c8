package dev.ullage.measure;

import dev.ullage.input.InputException;
import java.util.List;
import java.util.Optional;

/**
 * What an ELF file of any machine says of itself: sections, where they are loaded from, and names.
 * Addresses are those of the file.
 *
 * @param file what findings call it
 * @param machine the number of the instruction set, such as {@link #AVR}
 * @param flags what the machine's own supplement to the ABI says they are
 * @param linked false for an object file, whose names count from the start of their section
 * @param sections by number; the first, number 0, is none
 * @param names in the order of the symbol table; empty where the file was stripped
 * @param compiler what wrote the code, in its own words
 */
public record ElfProgram(
    String file,
    int machine,
    int flags,
    boolean linked,
    List<Section> sections,
    List<Name> names,
    Optional<String> compiler) {
  /** Atmel AVR. Numbers are those of the generic ABI's list of machines. */
  public static final int AVR = 83;

  /** 32-bit ARM. */
  public static final int ARM = 40;

  /** RISC-V. */
  public static final int RISCV = 243;

  public ElfProgram {
    sections = List.copyOf(sections);
    names = List.copyOf(names);
  }

  /**
   * @param file what findings call it
   * @throws InputException where the bytes are no ELF file, or a damaged one
   */
  public static ElfProgram read(String file, byte[] bytes) {
    return new ElfProgramReader(file, bytes).read();
  }

  /** The section of that number. */
  public Optional<Section> section(int number) {
    return number > 0 && number < sections.size()
        ? Optional.of(sections.get(number))
        : Optional.empty();
  }

  /**
   * A section.
   *
   * @param address where it is while the program runs
   * @param loadAddress where it is before the program starts
   * @param size in bytes
   * @param allocated false where it is for tools only
   * @param filled false where the file has no bytes for it
   * @param contents a view of the bytes; empty where there are none
   */
  public record Section(
      String name,
      long address,
      long loadAddress,
      int size,
      boolean allocated,
      boolean writable,
      boolean executable,
      boolean filled,
      boolean threadLocal,
      Contents contents) {}

  /** A stretch of the file's bytes that is not copied. */
  public static final class Contents {
    private final byte[] bytes;
    private final int start;
    private final int length;

    Contents(byte[] bytes, int start, int length) {
      this.bytes = bytes;
      this.start = start;
      this.length = length;
    }

    /** How many bytes there are. */
    public int length() {
      return length;
    }

    /** One byte, 0 to 255; {@code at} counts from the first. */
    public int at(int at) {
      if (at < 0 || at >= length) {
        throw new IndexOutOfBoundsException(at);
      }
      return bytes[start + at] & 0xFF;
    }

    /** Two bytes, the lower first. */
    public int half(int at) {
      return at(at) | at(at + 1) << 8;
    }

    /** Four bytes, the lowest first. */
    public int word(int at) {
      return half(at) | half(at + 2) << 16;
    }
  }

  /**
   * A row of the symbol table.
   *
   * @param section number of the section it is in; 0 for none, others for what has no place
   * @param source file that a local name comes from, where the table says so
   */
  public record Name(
      String text,
      int section,
      long value,
      long size,
      Type type,
      Binding binding,
      Optional<String> source) {}

  /** What a name stands for. */
  public enum Type {
    FUNCTION,
    OBJECT,
    /** A place, without saying what is there. */
    PLACE,
    /** For tools: a section, a source file. */
    MARK
  }

  /** Who else can see a name. */
  public enum Binding {
    LOCAL,
    GLOBAL,
    WEAK
  }
}
