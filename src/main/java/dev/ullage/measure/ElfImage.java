package dev.ullage.measure;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import net.fornwall.jelf.ElfFile;
import net.fornwall.jelf.ElfRelocationAddend;
import net.fornwall.jelf.ElfRelocationAddendSection;
import net.fornwall.jelf.ElfSectionHeader;
import net.fornwall.jelf.ElfSymbol;
import net.fornwall.jelf.ElfSymbolTableSection;

/**
 * The parts of an AVR ELF file that count here, checked: every range that a header names lies
 * inside the file, so the ELF library reads within bounds. Layout: System V ABI, chapter 4.
 */
final class ElfImage {
  private static final int MACHINE_AVR = 83;
  private static final int HEADER_BYTES = 52;
  private static final int SECTION_HEADER_BYTES = 40;
  private static final int SYMBOL_BYTES = 16;
  private static final int RELOCATION_BYTES = 12;
  private static final int MOST_BYTES = 16 << 20;
  private static final int LONGEST_NAME = 1000;
  private static final int SECTION_TABLE = 32;
  private static final int SECTION_NAMES = 50;
  private static final int TYPE = 4;
  private static final int FLAGS = 8;
  private static final int ADDRESS = 12;
  private static final int OFFSET = 16;
  private static final int SIZE = 20;
  private static final int LINK = 24;
  private static final int ALLOC = 2;
  private static final int EXECUTABLE = 4;

  /** A section that takes memory, on the part or in the file. */
  record Section(
      int index,
      String name,
      long address,
      int size,
      boolean allocated,
      boolean executable,
      boolean filled,
      byte[] bytes,
      List<Relocation> relocations) {}

  /** A place in a section that the linker fills in. */
  record Relocation(int offset, int type, int symbol, int addend) {}

  /** A row of the symbol table. {@code section} is 0 for undefined. */
  record Row(String name, long value, int size, int type, int binding, int section) {
    boolean isLocal() {
      return binding == ElfSymbol.BINDING_LOCAL;
    }

    boolean isFunction() {
      return type == ElfSymbol.STT_FUNC;
    }

    boolean isObject() {
      return type == ElfSymbol.STT_OBJECT;
    }

    boolean isSection() {
      return type == ElfSymbol.STT_SECTION;
    }
  }

  private final String file;
  private final ByteBuffer raw;
  private final List<Section> sections = new ArrayList<>();
  private final List<Row> rows = new ArrayList<>();
  private final boolean relocatable;
  private final int returnAddressBytes;

  /**
   * @throws InputException where the bytes are no AVR ELF file, or a damaged one
   */
  ElfImage(String file, byte[] bytes) {
    this.file = file;
    this.raw = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    checkHeaders(bytes.length);
    try {
      ElfFile elf = ElfFile.from(bytes);
      relocatable = elf.e_type == ElfFile.ET_REL;
      returnAddressBytes = returnAddressBytes(elf.e_flags);
      readSections(elf);
      readSymbols(elf);
    } catch (InputException e) {
      throw e;
    } catch (RuntimeException e) {
      // The library has several exception types for a damaged file, index errors among them.
      throw damaged(String.valueOf(e.getMessage()));
    }
  }

  List<Section> sections() {
    return sections;
  }

  Optional<Section> section(int index) {
    return index > 0 && index < sections.size()
        ? Optional.of(sections.get(index))
        : Optional.empty();
  }

  List<Row> rows() {
    return rows;
  }

  boolean isRelocatable() {
    return relocatable;
  }

  int returnAddressBytes() {
    return returnAddressBytes;
  }

  InputException damaged(String found) {
    return wrong(found, "an undamaged ELF file for AVR");
  }

  InputException wrong(String found, String expected) {
    return new InputException(new Finding(file, 0, 0, "", found, expected, Optional.empty()));
  }

  private void checkHeaders(int length) {
    if (length < HEADER_BYTES || raw.getInt(0) != 0x464C457F) {
      throw wrong("something else", "an ELF file");
    }
    if (length > MOST_BYTES) {
      throw wrong(length + " bytes", "at most " + MOST_BYTES + " bytes");
    }
    if (raw.get(4) != 1 || raw.get(5) != 1 || raw.getShort(18) != MACHINE_AVR) {
      throw wrong(
          "for machine " + Short.toUnsignedInt(raw.getShort(18)),
          "a 32-bit little-endian ELF file for AVR (machine 83)");
    }
    int count = Short.toUnsignedInt(raw.getShort(48));
    long table = Integer.toUnsignedLong(raw.getInt(SECTION_TABLE));
    if (raw.getShort(46) != SECTION_HEADER_BYTES
        || Short.toUnsignedInt(raw.getShort(SECTION_NAMES)) >= count
        || table + (long) count * SECTION_HEADER_BYTES > length) {
      throw damaged("a section table outside the file");
    }
    for (int i = 0; i < count; i++) {
      checkSection((int) table + i * SECTION_HEADER_BYTES, count, length);
    }
  }

  private void checkSection(int header, int count, int length) {
    int type = raw.getInt(header + 4);
    long end =
        Integer.toUnsignedLong(raw.getInt(header + 16))
            + Integer.toUnsignedLong(raw.getInt(header + 20));
    boolean inFile = type != ElfSectionHeader.SHT_NOBITS && type != ElfSectionHeader.SHT_NULL;
    if (inFile && end > length) {
      throw damaged("a section that ends at byte " + end + " of " + length);
    }
    if (raw.getInt(header + 20) < 0) {
      throw damaged("a section of more than 2 GiB");
    }
    int entry = raw.getInt(header + 36);
    boolean badEntry =
        type == ElfSectionHeader.SHT_SYMTAB && entry != SYMBOL_BYTES
            || type == ElfSectionHeader.SHT_RELA && entry != RELOCATION_BYTES;
    if (badEntry || Integer.toUnsignedLong(raw.getInt(header + 24)) >= count && inFile) {
      throw damaged("a section header that contradicts itself");
    }
  }

  /** Three bytes where the program counter has more than 16 bits: avr6, avrxmega6, avrxmega7. */
  private static int returnAddressBytes(int flags) {
    int machine = flags & 0x7F;
    return machine == 6 || machine == 106 || machine == 107 ? 3 : 2;
  }

  private void readSections(ElfFile elf) {
    int count = Short.toUnsignedInt(elf.e_shnum);
    for (int i = 0; i < count; i++) {
      sections.add(section(i, elf));
    }
    for (int i = 0; i < count; i++) {
      if (header(i, TYPE) == ElfSectionHeader.SHT_RELA) {
        ElfRelocationAddendSection from = (ElfRelocationAddendSection) elf.getSection(i);
        section(from.header.sh_info)
            .filter(Section::allocated)
            .ifPresent(to -> addRelocations(to, from));
      }
    }
  }

  private Section section(int index, ElfFile elf) {
    int type = header(index, TYPE);
    int flags = header(index, FLAGS);
    boolean allocated = (flags & ALLOC) != 0;
    boolean filled = type != ElfSectionHeader.SHT_NOBITS;
    // Only plain contents are handed to the library: notes and hash tables have parsers of their
    // own there, and nothing in them counts here.
    boolean wanted = allocated && type == ElfSectionHeader.SHT_PROGBITS;
    return new Section(
        index,
        text(header(raw.getShort(SECTION_NAMES) & 0xFFFF, OFFSET), header(index, 0)),
        Integer.toUnsignedLong(header(index, ADDRESS)),
        header(index, SIZE),
        allocated,
        (flags & EXECUTABLE) != 0,
        filled,
        wanted ? elf.getSection(index).getData() : new byte[0],
        new ArrayList<>());
  }

  private void addRelocations(Section to, ElfRelocationAddendSection from) {
    for (ElfRelocationAddend each : from.relocations) {
      int info = (int) each.r_info;
      int offset = (int) each.r_offset;
      if (offset < 0 || offset >= to.size()) {
        throw damaged("a relocation outside its section");
      }
      to.relocations().add(new Relocation(offset, info & 0xFF, info >>> 8, (int) each.r_addend));
    }
  }

  private void readSymbols(ElfFile elf) {
    for (int i = 0; i < sections.size(); i++) {
      if (header(i, TYPE) == ElfSectionHeader.SHT_SYMTAB) {
        int names = header(header(i, LINK), OFFSET);
        for (ElfSymbol each : ((ElfSymbolTableSection) elf.getSection(i)).symbols) {
          rows.add(row(each, names));
        }
        return;
      }
    }
    throw wrong("one without symbols", "an ELF file with its symbol table (not stripped)");
  }

  private Row row(ElfSymbol symbol, int names) {
    int section = Short.toUnsignedInt(symbol.st_shndx);
    boolean named = symbol.getType() != ElfSymbol.STT_SECTION || section >= sections.size();
    return new Row(
        named ? text(names, symbol.st_name) : sections.get(section).name(),
        symbol.st_value & 0xFFFFFFFFL,
        (int) symbol.st_size,
        symbol.getType(),
        symbol.getBinding(),
        section);
  }

  private int header(int section, int field) {
    return raw.getInt(raw.getInt(SECTION_TABLE) + section * SECTION_HEADER_BYTES + field);
  }

  /** Read here and not by the library, which has no limit on the length of a name. */
  private String text(int table, int index) {
    int start = Math.addExact(table, index);
    int end = start;
    while (raw.get(end) != 0) {
      if (++end - start > LONGEST_NAME) {
        throw damaged("a name of more than " + LONGEST_NAME + " bytes");
      }
    }
    return new String(raw.array(), start, end - start, StandardCharsets.ISO_8859_1);
  }
}
