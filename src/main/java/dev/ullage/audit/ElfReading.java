package dev.ullage.audit;

import dev.ullage.measure.ElfProgram;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Adds up a linked program of any machine. Figures are those of the sections, so they agree with
 * {@code size}; pieces share the sections out among the names in them.
 */
final class ElfReading {
  private static final long AVR_RAM = 0x800000;
  private static final long AVR_EEPROM = 0x810000;
  private static final long AVR_FUSES = 0x820000;

  /** A page of program memory that the program writes itself; the loader leaves it alone. */
  private static final String SETTINGS = ".settings";

  private static final Pattern RESERVED =
      Pattern.compile("\\.(_user_)?_?(heap|stack)(_stack)?(_dummy)?");
  private static final Pattern VECTORS =
      Pattern.compile(
          "_{0,2}(isr_|interrupt_|exception_)?[vV]ectors?(_table)?|g_pfnVectors"
              + "|\\(\\.(isr_|int)?vec(tors?)?(_table)?\\)");

  private final ElfProgram program;
  private final Optional<LinkerMap> map;
  private final CallFiles calls;

  ElfReading(ElfProgram program, Optional<LinkerMap> map, CallFiles calls) {
    this.program = program;
    this.map = map;
    this.calls = calls;
  }

  /**
   * @param bytes of the file, for what reads instructions
   */
  Measured measure(byte[] bytes) {
    if (!program.linked()) {
      throw TextFile.wrong(program.file(), 0, "an object file", "a linked program");
    }
    Map<Integer, List<Name>> names =
        program.names().stream().collect(Collectors.groupingBy(Name::section));
    List<Piece> pieces = new ArrayList<>();
    int reserved = 0;
    for (int i = 1; i < program.sections().size(); i++) {
      Section each = program.sections().get(i);
      Optional<Kind> kind = kind(each);
      if (kind.isPresent() && isReserved(each)) {
        reserved = add(reserved, each.size());
      } else if (kind.isPresent()) {
        List<Name> inside = names.getOrDefault(i, List.of());
        new Portions(program, each, kind.get(), inside, map).addTo(pieces);
      }
    }
    List<Piece> merged = Portions.merged(pieces);
    return new Measured(
        program.file(),
        core(),
        program.compiler(),
        figures(merged, reserved),
        new StackReading(program, calls).stack(bytes),
        merged,
        Heap.in(merged),
        map.map(LinkerMap::askedBy).orElse(Map.of()),
        map.map(LinkerMap::capacity).orElse(Capacity.UNKNOWN),
        notes());
  }

  /** Where the bytes of a section go; empty for what takes no memory that can run out. */
  private Optional<Kind> kind(Section section) {
    if (!section.allocated() || section.size() == 0) {
      return Optional.empty();
    }
    if (program.machine() == ElfProgram.AVR && section.address() >= AVR_RAM) {
      return avrKind(section);
    }
    if (section.name().equals(SETTINGS)) {
      return Optional.of(Kind.RODATA);
    }
    if (!section.filled()) {
      return Optional.of(Kind.BSS);
    }
    // What is copied before it runs takes both memories, code too.
    if (section.writable() || section.address() != section.loadAddress()) {
      return Optional.of(Kind.DATA);
    }
    return Optional.of(section.executable() ? Kind.CODE : Kind.RODATA);
  }

  /** AVR tools tell the memories apart by offsets that the part does not have. */
  private static Optional<Kind> avrKind(Section section) {
    if (section.address() >= AVR_FUSES) {
      return Optional.empty();
    }
    if (section.address() >= AVR_EEPROM) {
      return Optional.of(Kind.EEPROM);
    }
    return Optional.of(section.filled() ? Kind.DATA : Kind.BSS);
  }

  private static boolean isReserved(Section section) {
    return !section.filled() && RESERVED.matcher(section.name()).matches();
  }

  private Figures figures(List<Piece> pieces, int reserved) {
    List<Piece> vectors = pieces.stream().filter(ElfReading::isVectors).toList();
    return new Figures(
        add(Figures.sum(vectors, Kind.CODE), Figures.sum(vectors, Kind.RODATA)),
        Figures.sum(pieces, Kind.CODE) - Figures.sum(vectors, Kind.CODE),
        Figures.sum(pieces, Kind.RODATA) - Figures.sum(vectors, Kind.RODATA),
        Figures.sum(pieces, Kind.DATA),
        Figures.sum(pieces, Kind.BSS),
        reserved,
        Figures.sum(pieces, Kind.EEPROM),
        true);
  }

  static boolean isVectors(Piece piece) {
    return VECTORS.matcher(piece.symbol()).matches();
  }

  private static int add(int one, int other) {
    return Math.addExact(one, other);
  }

  private Optional<String> core() {
    return switch (program.machine()) {
      case ElfProgram.AVR -> Optional.of(avrCore(program.flags() & 0x7F));
      case ElfProgram.ARM -> Optional.of("arm");
      case ElfProgram.RISCV -> Optional.of("riscv");
      default -> Optional.empty();
    };
  }

  /** As the compiler's {@code -mmcu} calls it: elf/avr.h of the GNU binutils, E_AVR_MACH_*. */
  private static String avrCore(int machine) {
    if (machine == 100) {
      return "avrtiny";
    }
    return machine > 100 ? "avrxmega" + (machine - 100) : "avr" + machine;
  }

  private List<String> notes() {
    List<String> notes = new ArrayList<>();
    if (program.names().isEmpty()) {
      notes.add("the program has no symbol table, so bytes are known by section only");
    }
    if (map.isEmpty()) {
      notes.add(
          "no linker map was found beside it, so object files are known where names tell them;"
              + " -Wl,-Map=FILE writes one");
    }
    return notes;
  }
}
