package dev.ullage.measure;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import net.fornwall.jelf.ElfSectionHeader;

/**
 * The headers of an ELF file of any machine, 32 or 64 bits, checked before anything else looks at
 * them: every table and every section lies inside the file, and no two sections share bytes of it.
 * Layout: System V ABI, chapter 4.
 */
final class ElfHeaders {
  private static final int MAGIC = 0x7F454C46;
  private static final int HEADER_BYTES_32 = 52;
  private static final int HEADER_BYTES_64 = 64;
  private static final int LONGEST_NAME = 4000;

  private final String file;
  private final ByteBuffer raw;
  private final boolean wide;

  ElfHeaders(String file, byte[] bytes) {
    this.file = file;
    this.raw = ByteBuffer.wrap(bytes);
    if (bytes.length < HEADER_BYTES_32 || raw.getInt(0) != MAGIC) {
      throw wrong("something else", "an ELF file");
    }
    this.wide = raw.get(4) == 2;
    raw.order(raw.get(5) == 2 ? ByteOrder.BIG_ENDIAN : ByteOrder.LITTLE_ENDIAN);
    if (raw.get(4) < 1 || raw.get(4) > 2 || raw.get(5) < 1 || raw.get(5) > 2) {
      throw damaged("a header of unknown class or byte order");
    }
    if (wide && bytes.length < HEADER_BYTES_64) {
      throw damaged("a header that ends with the file");
    }
    check();
  }

  boolean wide() {
    return wide;
  }

  /** A file of 32 bits whose lower bytes come first. */
  boolean isSmallAndLittle() {
    return !wide && raw.order() == ByteOrder.LITTLE_ENDIAN;
  }

  /** Where the program starts, in a file of 32 bits. */
  int entry() {
    return raw.getInt(24);
  }

  int type() {
    return half(16);
  }

  int machine() {
    return half(18);
  }

  int flags() {
    return raw.getInt(wide ? 48 : 36);
  }

  int sectionCount() {
    return half(wide ? 60 : 48);
  }

  int segmentCount() {
    return half(wide ? 56 : 44);
  }

  String sectionName(int section) {
    int names = half(wide ? 62 : 50);
    return names == 0 ? "" : text(names, word(section, 0));
  }

  int sectionType(int section) {
    return word(section, 4);
  }

  long sectionFlags(int section) {
    return field(section, 8, 8);
  }

  long address(int section) {
    return field(section, 12, 16);
  }

  long offset(int section) {
    return field(section, 16, 24);
  }

  long size(int section) {
    return field(section, 20, 32);
  }

  int link(int section) {
    return word(section, wide ? 40 : 24);
  }

  /** For relocations, the section that they are of. */
  int info(int section) {
    return word(section, wide ? 44 : 28);
  }

  /** What the address of a section has to be a multiple of; at least 1. */
  int alignment(int section) {
    return (int) Math.max(1, Math.min(field(section, 32, 48), 1 << 16));
  }

  /** A section that has bytes in the file. */
  boolean filled(int section) {
    int type = sectionType(section);
    return type != ElfSectionHeader.SHT_NOBITS && type != ElfSectionHeader.SHT_NULL;
  }

  /** A text of a table of texts. */
  String text(int table, int index) {
    long start = offset(table) + Integer.toUnsignedLong(index);
    long limit = offset(table) + size(table);
    int end = (int) Math.min(start, limit);
    while (end < limit && raw.get(end) != 0) {
      end++;
      if (end - start > LONGEST_NAME) {
        throw damaged("a name of more than " + LONGEST_NAME + " bytes");
      }
    }
    if (end >= limit) {
      throw damaged("a name outside its table");
    }
    return new String(raw.array(), (int) start, end - (int) start, StandardCharsets.ISO_8859_1);
  }

  InputException damaged(String found) {
    return wrong(found, "an undamaged ELF file");
  }

  InputException wrong(String found, String expected) {
    return new InputException(new Finding(file, 0, 0, "", found, expected, Optional.empty()));
  }

  private void check() {
    int length = raw.capacity();
    long sections = offsetField(32, 40);
    long segments = offsetField(28, 32);
    checkTable("section", sections, sectionCount(), half(wide ? 58 : 46), wide ? 64 : 40);
    checkTable("segment", segments, segmentCount(), half(wide ? 54 : 42), wide ? 56 : 32);
    long inFile = 0;
    for (int i = 0; i < sectionCount(); i++) {
      if (filled(i)) {
        long end = offset(i) + size(i);
        if (offset(i) < 0 || size(i) < 0 || end < 0 || end > length) {
          throw damaged("a section that ends outside the file");
        }
        inFile += size(i);
        if (link(i) < 0 || link(i) >= sectionCount()) {
          throw damaged("a section that refers to none");
        }
      }
    }
    if (inFile > length) {
      throw damaged("sections that overlap in the file");
    }
    int names = half(wide ? 62 : 50);
    if (sectionCount() > 0 && (names >= sectionCount() || !filled(names) && names != 0)) {
      throw damaged("section names that are not there");
    }
  }

  private void checkTable(String what, long start, int count, int entry, int expected) {
    boolean outside = start < 0 || start > raw.capacity() - (long) count * expected;
    if (count > 0 && (entry != expected || outside)) {
      throw damaged("a " + what + " table outside the file");
    }
  }

  private int half(int at) {
    return Short.toUnsignedInt(raw.getShort(at));
  }

  private long offsetField(int at32, int at64) {
    return wide ? raw.getLong(at64) : Integer.toUnsignedLong(raw.getInt(at32));
  }

  private int at(int section, int field) {
    return (int) offsetField(32, 40) + section * (wide ? 64 : 40) + field;
  }

  private int word(int section, int field) {
    return raw.getInt(at(section, field));
  }

  private long field(int section, int at32, int at64) {
    return wide
        ? raw.getLong(at(section, at64))
        : Integer.toUnsignedLong(raw.getInt(at(section, at32)));
  }
}
