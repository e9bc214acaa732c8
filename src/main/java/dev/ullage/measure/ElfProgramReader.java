package dev.ullage.measure;

import dev.ullage.input.InputException;
import dev.ullage.measure.ElfProgram.Binding;
import dev.ullage.measure.ElfProgram.Contents;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import net.fornwall.jelf.ElfFile;
import net.fornwall.jelf.ElfSectionHeader;
import net.fornwall.jelf.ElfSegment;
import net.fornwall.jelf.ElfSymbol;
import net.fornwall.jelf.ElfSymbolTableSection;

/** Reads what an ELF file says of itself, with limits on how much that may be. */
final class ElfProgramReader {
  private static final int MOST_BYTES = 64 << 20;
  private static final int MOST_NAMES = 300_000;
  private static final int MOST_TEXT = 8 << 20;
  private static final int LONGEST_COMPILER = 100;
  private static final int WRITE = 1;
  private static final int ALLOC = 2;
  private static final int EXECUTABLE = 4;
  private static final int THREAD_LOCAL = 0x400;
  private static final int LOAD = 1;
  private static final int FILE = 4;
  private static final int INDIRECT_FUNCTION = 10;

  private final String file;
  private final byte[] bytes;
  private final ElfHeaders headers;
  private final List<ElfSegment> segments = new ArrayList<>();

  ElfProgramReader(String file, byte[] bytes) {
    this.file = file;
    this.bytes = bytes;
    this.headers = new ElfHeaders(file, bytes);
    if (bytes.length > MOST_BYTES) {
      throw headers.wrong(bytes.length + " bytes", "at most " + MOST_BYTES + " bytes");
    }
  }

  ElfProgram read() {
    try {
      ElfFile elf = ElfFile.from(bytes);
      readSegments(elf);
      List<Section> sections = sections();
      boolean linked = isLinked();
      if (linked) {
        refuseOverlap(sections);
      }
      return new ElfProgram(
          file, headers.machine(), headers.flags(), linked, sections, names(elf), compiler());
    } catch (InputException e) {
      throw e;
    } catch (RuntimeException e) {
      // The library has several exception types for a damaged file, index errors among them.
      throw headers.damaged(String.valueOf(e.getMessage()));
    }
  }

  private boolean isLinked() {
    return switch (headers.type()) {
      case ElfFile.ET_REL -> false;
      case ElfFile.ET_EXEC, ElfFile.ET_DYN -> true;
      default -> throw headers.wrong("of type " + headers.type(), "a program or an object file");
    };
  }

  private void readSegments(ElfFile elf) {
    for (int i = 0; i < headers.segmentCount(); i++) {
      ElfSegment segment = elf.getProgramHeader(i);
      if (segment.p_type == LOAD && segment.p_filesz > 0) {
        if (segment.p_offset < 0 || segment.p_filesz > bytes.length - segment.p_offset) {
          throw headers.damaged("a segment that ends outside the file");
        }
        segments.add(segment);
      }
    }
  }

  private List<Section> sections() {
    List<Section> sections = new ArrayList<>();
    for (int i = 0; i < headers.sectionCount(); i++) {
      sections.add(section(i));
    }
    return sections;
  }

  private Section section(int number) {
    long flags = headers.sectionFlags(number);
    boolean allocated = number > 0 && (flags & ALLOC) != 0;
    boolean filled = headers.filled(number);
    long size = headers.size(number);
    if (allocated && (size < 0 || size > Integer.MAX_VALUE)) {
      throw headers.damaged("a section of more than 2 GiB");
    }
    return new Section(
        headers.sectionName(number),
        headers.address(number),
        loadAddress(number),
        (int) Math.min(size, Integer.MAX_VALUE),
        allocated,
        (flags & WRITE) != 0,
        (flags & EXECUTABLE) != 0,
        filled,
        (flags & THREAD_LOCAL) != 0,
        filled
            ? new Contents(bytes, (int) headers.offset(number), (int) size)
            : new Contents(bytes, 0, 0));
  }

  /** As the segment says that holds the section; where none does, where it runs. */
  private long loadAddress(int number) {
    long address = headers.address(number);
    if (headers.filled(number)) {
      for (ElfSegment each : segments) {
        long inside = headers.offset(number) - each.p_offset;
        boolean holds = inside >= 0 && inside + headers.size(number) <= each.p_filesz;
        if (holds && address(each.p_vaddr) + inside == address) {
          return address(each.p_paddr) + inside;
        }
      }
    }
    return address;
  }

  private long address(long value) {
    return headers.wide() ? value : value & 0xFFFFFFFFL;
  }

  private void refuseOverlap(List<Section> sections) {
    List<Section> placed =
        sections.stream()
            .filter(each -> each.allocated() && each.size() > 0)
            .filter(each -> !each.threadLocal() || each.filled())
            .sorted(Comparator.comparingLong(Section::address))
            .toList();
    for (int i = 1; i < placed.size(); i++) {
      Section before = placed.get(i - 1);
      if (before.address() + before.size() > placed.get(i).address()) {
        throw headers.wrong(
            "one where `" + before.name() + "` and `" + placed.get(i).name() + "` overlap",
            "a program whose sections lie apart");
      }
    }
  }

  private List<Name> names(ElfFile elf) {
    List<Name> names = new ArrayList<>();
    for (int i = 0; i < headers.sectionCount(); i++) {
      if (headers.sectionType(i) == ElfSectionHeader.SHT_SYMTAB) {
        int entry = headers.wide() ? 24 : 16;
        if (headers.size(i) / entry > MOST_NAMES) {
          throw headers.wrong(
              headers.size(i) / entry + " symbols", "one with at most " + MOST_NAMES + " symbols");
        }
        read(((ElfSymbolTableSection) elf.getSection(i)).symbols, headers.link(i), names);
        return names;
      }
    }
    return names;
  }

  private void read(ElfSymbol[] symbols, int table, List<Name> names) {
    Optional<String> source = Optional.empty();
    int text = 0;
    for (ElfSymbol each : symbols) {
      String name = each.st_name == 0 ? "" : headers.text(table, each.st_name);
      text += name.length();
      if (text > MOST_TEXT) {
        throw headers.wrong("longer", "one with at most " + MOST_TEXT + " bytes of names");
      }
      if (each.getType() == FILE) {
        source = Optional.of(name).filter(n -> !n.isEmpty());
      }
      Binding binding = binding(each);
      Optional<String> from = binding == Binding.LOCAL ? source : Optional.empty();
      int section = Short.toUnsignedInt(each.st_shndx);
      long size = address(each.st_size);
      names.add(new Name(name, section, address(each.st_value), size, type(each), binding, from));
    }
  }

  private static Binding binding(ElfSymbol symbol) {
    return switch (symbol.getBinding()) {
      case ElfSymbol.BINDING_LOCAL -> Binding.LOCAL;
      case ElfSymbol.BINDING_WEAK -> Binding.WEAK;
      default -> Binding.GLOBAL;
    };
  }

  private static Type type(ElfSymbol symbol) {
    return switch (symbol.getType()) {
      case ElfSymbol.STT_FUNC, INDIRECT_FUNCTION -> Type.FUNCTION;
      case ElfSymbol.STT_OBJECT -> Type.OBJECT;
      case ElfSymbol.STT_SECTION, FILE -> Type.MARK;
      default -> Type.PLACE;
    };
  }

  /** The first line that compilers leave in {@code .comment}. */
  private Optional<String> compiler() {
    for (int i = 1; i < headers.sectionCount(); i++) {
      if (headers.sectionName(i).equals(".comment") && headers.filled(i)) {
        Contents contents = new Contents(bytes, (int) headers.offset(i), (int) headers.size(i));
        StringBuilder text = new StringBuilder();
        for (int at = 0; at < Math.min(contents.length(), LONGEST_COMPILER); at++) {
          int c = contents.at(at);
          if (c == 0 && !text.isEmpty()) {
            break;
          }
          if (c >= ' ' && c < 0x7F) {
            text.append((char) c);
          }
        }
        return Optional.of(text.toString().strip()).filter(words -> !words.isEmpty());
      }
    }
    return Optional.empty();
  }
}
