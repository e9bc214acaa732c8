package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import dev.ullage.measure.Symbol.Edge;
import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** Figures of a linked program for ARM or RISC-V. */
final class MachineProgram {
  /** The page of program memory that a program writes: taken, but no part of what is loaded. */
  static final String SETTINGS = ".settings";

  /** What sections of code that runs from RAM are called in object files. */
  static final String RAM_CODE = ".ramcode";

  private final ElfProgram program;
  private final ProgramNames names;
  private final ProgramWalk walk;
  private final TreeMap<Integer, Routine> routines;

  private MachineProgram(ElfProgram program) {
    this.program = program;
    this.names = new ProgramNames(program);
    this.walk = new ProgramWalk(program, names);
    this.routines = walk.routines();
  }

  /**
   * @param entry where the file says that the program starts
   */
  static LinkedProgram read(ElfProgram program, int entry) {
    MachineProgram machine = new MachineProgram(program);
    List<Symbol> symbols = machine.symbols();
    int code = machine.bytes(Kind.CODE) + machine.bytes(Kind.RODATA);
    int data = machine.bytes(Kind.DATA);
    return new LinkedProgram(
        Math.addExact(Math.addExact(code, data), machine.bytes(Kind.EEPROM)),
        data,
        Math.addExact(data, machine.bytes(Kind.BSS)),
        0,
        0,
        symbols,
        new MachineStack(program, machine.walk.code(), machine.routines, symbols).bound(entry));
  }

  private int bytes(Kind kind) {
    int sum = 0;
    for (Section each : program.sections()) {
      if (kind(each).filter(kind::equals).isPresent()) {
        sum = Math.addExact(sum, each.size());
      }
    }
    return sum;
  }

  private static Optional<Kind> kind(Section section) {
    if (!section.allocated() || section.size() == 0) {
      return Optional.empty();
    }
    if (section.name().equals(SETTINGS)) {
      return Optional.of(Kind.EEPROM);
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

  private List<Symbol> symbols() {
    List<Symbol> symbols = new ArrayList<>();
    names.starts().forEach((address, name) -> symbols.add(symbol(address, name)));
    routines.forEach(
        (address, routine) -> {
          if (!names.starts().containsKey(address)) {
            symbols.add(unnamed(walk.code().place(address), routine));
          }
        });
    names.seconds().forEach(each -> second(each).ifPresent(symbols::add));
    return symbols;
  }

  private Symbol symbol(int address, Name name) {
    Section section = program.section(name.section()).orElseThrow();
    Kind kind = kind(section).orElseThrow();
    Routine routine = routines.getOrDefault(address, Routine.NONE);
    return new Symbol(
        names.text(name),
        name.binding() == ElfProgram.Binding.LOCAL,
        kind == Kind.CODE && name.type() == Type.OBJECT ? Kind.RODATA : kind,
        length(address, name, section),
        routine.ownStack(),
        routine.edges().stream().distinct().toList(),
        routine.unbounded());
  }

  /** What the name says, but not into the next one; without a size, as far as that. */
  private int length(int address, Name name, Section section) {
    Map.Entry<Integer, Name> next = names.starts().higherEntry(address);
    boolean inSection = next != null && next.getValue().section() == name.section();
    int room = (inSection ? next.getKey() : (int) section.address() + section.size()) - address;
    return name.size() > 0 ? (int) Math.min(name.size(), room) : room;
  }

  /** Code at the start of a section without a name, or called inside of a routine. */
  private static Symbol unnamed(String place, Routine routine) {
    return new Symbol(
        place,
        true,
        Kind.CODE,
        0,
        routine.ownStack(),
        routine.edges().stream().distinct().toList(),
        routine.unbounded());
  }

  /** Another name of a place that has a better one: an empty symbol that runs into it. */
  private Optional<Symbol> second(Name name) {
    Section section = program.section(name.section()).orElseThrow();
    Name first = names.starts().get(names.address(name));
    return kind(section)
        .map(
            kind ->
                new Symbol(
                    names.text(name),
                    name.binding() == ElfProgram.Binding.LOCAL,
                    kind,
                    0,
                    0,
                    List.of(new Edge(names.text(first), 0, Edge.Type.TAIL)),
                    Optional.empty()));
  }
}
