package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Binding;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.Symbol.Edge;
import dev.ullage.measure.Symbol.Kind;
import dev.ullage.measure.Symbol.Place;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Turns the sections of an object file for ARM or RISC-V into symbols. */
final class MachineObject {
  private final TrialLink link;
  private final ElfHeaders headers;
  private final ElfProgram program;
  private final ProgramNames names;
  private final ProgramWalk walk;
  private final TreeMap<Integer, Routine> routines;

  /** What leads from one section elsewhere apart from instructions that were followed. */
  private record Reference(int address, String target, boolean shortened) {}

  private final TreeMap<Integer, List<Reference>> references = new TreeMap<>();

  private MachineObject(ElfHeaders headers, ElfProgram object) {
    this.headers = headers;
    this.link = new TrialLink(headers, object);
    Map<Relocation, Integer> goals = new LinkedHashMap<>();
    link.relocations().forEach(each -> goals.put(each, link.goal(each)));
    this.program = link.program();
    this.names = new ProgramNames(program);
    this.walk = new ProgramWalk(program, names);
    this.routines = walk.routines();
    boolean riscv = program.machine() == ElfProgram.RISCV;
    Set<Integer> relaxed =
        goals.keySet().stream()
            .filter(each -> riscv && each.type() == RiscvPatch.RELAX)
            .map(this::address)
            .collect(Collectors.toSet());
    goals.forEach((each, goal) -> addReference(each, goal, riscv, relaxed));
  }

  static ObjectFile read(String name, byte[] bytes) {
    ElfHeaders headers = new ElfHeaders(name, bytes);
    ElfProgram object = new ElfProgramReader(name, bytes).read();
    if (!headers.isSmallAndLittle()) {
      throw headers.wrong("of another class or byte order", "a 32-bit little-endian ELF file");
    }
    if (object.linked()) {
      throw headers.wrong("a linked program", "an object file");
    }
    try {
      return new ObjectFile(name, 0, new MachineObject(headers, object).symbols(), List.of());
    } catch (ArithmeticException | IndexOutOfBoundsException e) {
      throw headers.damaged("symbols outside their sections");
    }
  }

  private int address(Relocation each) {
    return (int) program.sections().get(each.section()).address() + each.offset();
  }

  private void addReference(Relocation each, int goal, boolean riscv, Set<Integer> relaxed) {
    if (riscv && RiscvPatch.isIdle(each.type())) {
      return;
    }
    int address = address(each);
    int from = sectionAt(address);
    int to = sectionAt(goal);
    boolean shortened =
        riscv
            && (RiscvPatch.isCall(each.type()) || RiscvPatch.isUpper(each.type()))
            && relaxed.contains(address);
    if (to > 0 && (to != from || shortened)) {
      references
          .computeIfAbsent(address, any -> new ArrayList<>())
          .add(new Reference(address, holder(to, goal), shortened));
    }
  }

  /** The number of the section that an address is in, or just behind; 0 for none. */
  private int sectionAt(int address) {
    for (int i = 1; i < program.sections().size(); i++) {
      Section each = program.sections().get(i);
      long inside = (address & 0xFFFFFFFFL) - each.address();
      if (each.allocated() && inside >= 0 && inside < each.size()) {
        return i;
      }
    }
    return 0;
  }

  /** The symbol that holds a place. */
  private String holder(int section, int address) {
    Section in = program.sections().get(section);
    Map.Entry<Integer, Name> start = names.starts().floorEntry(address);
    return start != null && start.getKey() >= in.address()
        ? names.text(start.getValue())
        : in.name();
  }

  private List<Symbol> symbols() {
    List<Symbol> symbols = new ArrayList<>();
    for (int i = 1; i < link.elsewhere(); i++) {
      if (program.sections().get(i).allocated()) {
        addSection(i, symbols);
      }
    }
    for (Name each : names.seconds()) {
      if (each.section() != link.elsewhere()) {
        symbols.add(second(each));
      }
    }
    return symbols;
  }

  private void addSection(int number, List<Symbol> symbols) {
    Section section = program.sections().get(number);
    int start = (int) section.address();
    int end = start + section.size();
    TreeMap<Integer, String> entries = new TreeMap<>();
    names.starts().subMap(start, end).forEach((at, name) -> entries.put(at, names.text(name)));
    entries.putIfAbsent(start, section.name());
    routines
        .subMap(start, end)
        .keySet()
        .forEach(at -> entries.putIfAbsent(at, walk.code().place(at)));
    String leader = entries.get(start);
    entries.forEach(
        (at, name) -> {
          Integer next = entries.higherKey(at);
          List<Edge> edges = edges(at, next == null ? end : next, start);
          if (entries.size() > 1) {
            String neighbour = entries.get(next == null ? start : next);
            edges.add(new Edge(neighbour, 0, Edge.Type.REFERENCE));
          }
          Place place =
              at == start
                  ? new Place.Aligned(headers.alignment(number))
                  : new Place.Inside(leader, at - start);
          symbols.add(symbol(section, at, name, edges, place));
        });
  }

  private Symbol symbol(Section section, int at, String name, List<Edge> edges, Place place) {
    Routine routine = routines.getOrDefault(at, Routine.NONE);
    boolean local =
        Optional.ofNullable(names.starts().get(at))
            .map(row -> row.binding() == Binding.LOCAL)
            .orElse(true);
    return new Symbol(
        name,
        local,
        kind(section),
        place instanceof Place.Aligned ? section.size() : 0,
        routine.ownStack(),
        edges,
        routine.unbounded(),
        place);
  }

  /** What is followed, then what is only referred to, each with where the linker shortens it. */
  private List<Edge> edges(int from, int to, int section) {
    Map<String, List<Integer>> sites = new LinkedHashMap<>();
    for (List<Reference> here : references.subMap(from, to).values()) {
      for (Reference each : here) {
        List<Integer> at = sites.computeIfAbsent(each.target(), any -> new ArrayList<>());
        if (each.shortened()) {
          at.add(each.address() - section);
        }
      }
    }
    List<Edge> edges = new ArrayList<>();
    for (Edge each : routines.getOrDefault(from, Routine.NONE).edges()) {
      List<Integer> at = sites.getOrDefault(each.target(), List.of());
      boolean known = edges.stream().anyMatch(edge -> edge.target().equals(each.target()));
      Edge edge = new Edge(each.target(), each.depth(), each.type(), known ? List.of() : at);
      boolean same = edges.stream().anyMatch(e -> e.depth() == each.depth() && isSame(e, each));
      if (!same) {
        edges.add(edge);
      }
    }
    edges.forEach(each -> sites.remove(each.target()));
    sites.forEach((name, at) -> edges.add(new Edge(name, 0, Edge.Type.REFERENCE, at)));
    return edges;
  }

  private static boolean isSame(Edge one, Edge other) {
    return one.target().equals(other.target()) && one.type() == other.type();
  }

  /** Another name of a place that has a better one: an empty symbol that runs into it. */
  private Symbol second(Name name) {
    String first = names.text(names.starts().get(names.address(name)));
    return new Symbol(
        names.text(name),
        name.binding() == Binding.LOCAL,
        kind(program.sections().get(name.section())),
        0,
        0,
        List.of(new Edge(first, 0, Edge.Type.TAIL)),
        Optional.empty(),
        new Place.Inside(first, 0));
  }

  private static Kind kind(Section section) {
    if (section.name().startsWith(MachineProgram.SETTINGS)) {
      return Kind.EEPROM;
    }
    if (section.executable()) {
      return section.name().startsWith(MachineProgram.RAM_CODE) ? Kind.RAM_CODE : Kind.CODE;
    }
    if (!section.writable()) {
      return Kind.RODATA;
    }
    return section.filled() ? Kind.DATA : Kind.BSS;
  }
}
