package dev.ullage.measure;

import dev.ullage.measure.CodeSection.Goal;
import dev.ullage.measure.ElfImage.Relocation;
import dev.ullage.measure.ElfImage.Row;
import dev.ullage.measure.ElfImage.Section;
import dev.ullage.measure.ElfProgram.Contents;
import dev.ullage.measure.Symbol.Edge;
import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** Turns the sections of one ELF file into symbols: shares out the bytes, follows the code. */
final class SymbolReader {
  /** Relocations that fill in jumps and calls: elf.h of the GNU binutils, {@code R_AVR_*}. */
  private static final Set<Integer> FLOW = Set.of(2, 3, 18); // 7_PCREL, 13_PCREL, CALL

  /** Relocations that name nothing which has to be kept: none, and the distances of debug data. */
  private static final Set<Integer> IDLE = Set.of(0, 30, 31, 32); // NONE, DIFF8, DIFF16, DIFF32

  private static final long RAM = 0x800000;
  private static final long EEPROM = 0x810000;

  private final ElfImage image;
  private final Patience patience = new Patience();

  /** Where symbols start, by section: the one with the best right to the place. */
  private final Map<Integer, TreeMap<Integer, Row>> starts = new HashMap<>();

  private final Map<Row, String> names = new HashMap<>();
  private final Set<String> taken = new LinkedHashSet<>();
  private final Set<String> interruptible = new TreeSet<>();

  SymbolReader(ElfImage image) {
    this.image = image;
    for (Row row : image.rows()) {
      image.section(row.section()).filter(this::counts).ifPresent(at -> start(row, at));
    }
  }

  /** Routines that enable interrupts; known after {@link #read}. */
  Set<String> interruptible() {
    return interruptible;
  }

  List<Symbol> read() {
    List<Symbol> symbols = new ArrayList<>();
    for (Section section : image.sections()) {
      if (counts(section)) {
        symbols.addAll(section(section));
      }
    }
    for (Row row : image.rows()) {
      second(row).ifPresent(symbols::add);
    }
    return symbols;
  }

  /** The name of what starts at a place, if something does. */
  Optional<String> nameAt(Section section, int offset) {
    return Optional.ofNullable(starts.getOrDefault(section.index(), new TreeMap<>()).get(offset))
        .map(names::get);
  }

  private boolean counts(Section section) {
    return section.allocated() && section.size() > 0 && kind(section).isPresent();
  }

  private void start(Row row, Section section) {
    long offset = row.value() - (image.isRelocatable() ? 0 : section.address());
    boolean starts = row.isFunction() || row.isObject() || !row.isLocal() && !row.isSection();
    if (starts && offset >= 0 && offset < section.size()) {
      this.starts
          .computeIfAbsent(section.index(), any -> new TreeMap<>())
          .merge((int) offset, row, SymbolReader::better);
    }
  }

  /** Of several names of one place: what the compiler marked, then what has a size, then global. */
  private static Row better(Row one, Row other) {
    return rank(other) > rank(one) ? other : one;
  }

  private static int rank(Row row) {
    return (row.isFunction() || row.isObject() ? 8 : 0)
        + (row.size() > 0 ? 4 : 0)
        + (row.binding() == 1 ? 2 : 0)
        + (row.isLocal() ? 0 : 1);
  }

  private List<Symbol> section(Section section) {
    TreeMap<Integer, Row> rows = starts.getOrDefault(section.index(), new TreeMap<>());
    TreeMap<Integer, String> entries = new TreeMap<>();
    rows.forEach((offset, row) -> entries.put(offset, name(row)));
    if (!entries.containsKey(0)) {
      entries.put(0, unique(section.name()));
    }
    Map<Integer, List<Edge>> references = references(section, entries);
    Map<Integer, Routine> routines =
        section.executable() ? routines(section, rows, entries) : Map.of();
    List<Symbol> symbols = new ArrayList<>();
    for (int offset : entries.keySet()) {
      symbols.add(symbol(section, rows, entries, offset, references, routines));
    }
    routines.forEach(
        (offset, routine) -> {
          if (!entries.containsKey(offset)) {
            symbols.add(inner(entries.floorEntry(offset), offset, routine));
          }
        });
    return symbols;
  }

  /** A place inside a routine that is called on its own. */
  private static Symbol inner(Map.Entry<Integer, String> holder, int offset, Routine routine) {
    List<Edge> edges = new ArrayList<>(routine.edges());
    edges.add(new Edge(holder.getValue(), 0, Edge.Type.REFERENCE));
    String name = CodeSection.placeIn(holder.getValue(), offset - holder.getKey());
    return new Symbol(name, true, Kind.CODE, 0, routine.ownStack(), edges, routine.unbounded());
  }

  private Symbol symbol(
      Section section,
      TreeMap<Integer, Row> rows,
      TreeMap<Integer, String> entries,
      int offset,
      Map<Integer, List<Edge>> references,
      Map<Integer, Routine> routines) {
    Optional<Row> row = Optional.ofNullable(rows.get(offset));
    Integer next = entries.higherKey(offset);
    int room = (next == null ? section.size() : next) - offset;
    boolean sized = !image.isRelocatable() && row.isPresent() && row.get().size() > 0;
    int bytes = sized ? Math.min(row.get().size(), room) : room;
    Routine routine = routines.getOrDefault(offset, Routine.NONE);
    List<Edge> edges = new ArrayList<>(routine.edges());
    edges.addAll(references.getOrDefault(offset, List.of()));
    if (image.isRelocatable() && entries.size() > 1) {
      String neighbour = entries.get(next == null ? entries.firstKey() : next);
      edges.add(new Edge(neighbour, 0, Edge.Type.REFERENCE));
    }
    if (routine.enablesInterrupts()) {
      interruptible.add(entries.get(offset));
    }
    Kind kind = kind(section).orElseThrow();
    return new Symbol(
        entries.get(offset),
        row.map(Row::isLocal).orElse(true),
        kind == Kind.CODE && row.map(Row::isObject).orElse(false) ? Kind.RODATA : kind,
        bytes,
        routine.ownStack(),
        distinct(edges),
        routine.unbounded());
  }

  private Map<Integer, Routine> routines(
      Section section, TreeMap<Integer, Row> rows, TreeMap<Integer, String> entries) {
    Map<Integer, Integer> ends = new HashMap<>();
    rows.forEach(
        (offset, row) -> {
          if (row.isFunction() && row.size() > 0) {
            ends.put(offset, offset + row.size());
          }
        });
    CodeSection code =
        new CodeSection(
            Map.of(0, new Contents(section.bytes(), 0, section.bytes().length)),
            section.name(),
            entries,
            ends,
            patience);
    AvrInstructions instructions =
        new AvrInstructions(image.returnAddressBytes(), (int) section.address());
    fillIn(code, section);
    Map<Integer, Routine> routines = new TreeMap<>();
    Deque<Integer> work = new ArrayDeque<>(entries.keySet());
    while (!work.isEmpty()) {
      int offset = work.remove();
      boolean data = rows.containsKey(offset) && rows.get(offset).isObject();
      if (!data && !routines.containsKey(offset)) {
        routines.put(offset, RoutineWalk.walk(code, instructions, offset));
        // Walking finds places inside that are called, and they have to be walked too.
        work.addAll(code.madeUp());
      }
    }
    return routines;
  }

  private void fillIn(CodeSection code, Section section) {
    for (Relocation each : section.relocations()) {
      if (FLOW.contains(each.type())) {
        code.fillIn(each.offset(), goal(section, each));
      }
    }
  }

  private Goal goal(Section section, Relocation relocation) {
    Row row = row(relocation);
    if (row.section() == section.index()) {
      return new Goal.Inside((int) row.value() + relocation.addend());
    }
    return new Goal.Outside(target(relocation));
  }

  /** References by the start of the symbol that makes them. */
  private Map<Integer, List<Edge>> references(Section section, TreeMap<Integer, String> entries) {
    Map<Integer, List<Edge>> references = new HashMap<>();
    for (Relocation each : section.relocations()) {
      boolean flow = FLOW.contains(each.type()) && section.executable();
      if (!flow && !IDLE.contains(each.type()) && row(each).section() != section.index()) {
        references
            .computeIfAbsent(entries.floorKey(each.offset()), any -> new ArrayList<>())
            .add(new Edge(target(each), 0, Edge.Type.REFERENCE));
      }
    }
    return references;
  }

  private Row row(Relocation relocation) {
    if (relocation.symbol() >= image.rows().size()) {
      throw image.damaged("a relocation to a symbol that is not there");
    }
    return image.rows().get(relocation.symbol());
  }

  /** The symbol that holds the place a relocation names. */
  private String target(Relocation relocation) {
    Row row = row(relocation);
    Optional<Section> section = image.section(row.section()).filter(this::counts);
    if (section.isEmpty()) {
      return row.name();
    }
    // Addresses in program memory may count words and name places ahead; sections tell enough.
    int offset = row.isSection() ? relocation.addend() : (int) row.value();
    TreeMap<Integer, Row> rows = starts.getOrDefault(section.get().index(), new TreeMap<>());
    Map.Entry<Integer, Row> holder = rows.floorEntry(offset);
    if (holder == null) {
      holder = rows.firstEntry();
    }
    return holder == null ? section.get().name() : name(holder.getValue());
  }

  /** Another name of a place that already has one: an empty symbol that runs into it. */
  private Optional<Symbol> second(Row row) {
    Optional<Section> section = image.section(row.section()).filter(this::counts);
    if (row.isLocal() || row.isSection() || section.isEmpty() || names.containsKey(row)) {
      return Optional.empty();
    }
    long offset = row.value() - (image.isRelocatable() ? 0 : section.get().address());
    return nameAt(section.get(), (int) offset)
        .map(
            first ->
                new Symbol(
                    name(row),
                    false,
                    kind(section.get()).orElseThrow(),
                    0,
                    0,
                    List.of(new Edge(first, 0, Edge.Type.TAIL)),
                    Optional.empty()));
  }

  private String name(Row row) {
    return names.computeIfAbsent(
        row, any -> row.isLocal() && !image.isRelocatable() ? unique(row.name()) : row.name());
  }

  /** Linked programs may hold several local functions of one name; later ones get a number. */
  private String unique(String name) {
    String unique = name;
    for (int i = 2; !taken.add(unique); i++) {
      unique = name + '#' + i;
    }
    return unique;
  }

  private static List<Edge> distinct(List<Edge> edges) {
    return List.copyOf(new LinkedHashSet<>(edges));
  }

  /** Empty for what takes no memory that a program can run out of: fuses, lock bits, signature. */
  private Optional<Kind> kind(Section section) {
    if (image.isRelocatable()) {
      return kindByName(section);
    }
    if (section.address() >= EEPROM) {
      return section.address() < EEPROM + 0x10000 ? Optional.of(Kind.EEPROM) : Optional.empty();
    }
    if (section.address() >= RAM) {
      return Optional.of(section.filled() ? Kind.DATA : Kind.BSS);
    }
    return Optional.of(section.executable() ? Kind.CODE : Kind.RODATA);
  }

  private static Optional<Kind> kindByName(Section section) {
    String name = section.name();
    if (name.startsWith(".progmem")) {
      return Optional.of(Kind.RODATA);
    }
    if (name.startsWith(".eeprom")) {
      return Optional.of(Kind.EEPROM);
    }
    if (Set.of(".fuse", ".lock", ".signature", ".user_signatures").contains(name)) {
      return Optional.empty();
    }
    if (section.executable()) {
      return Optional.of(Kind.CODE);
    }
    return Optional.of(section.filled() ? Kind.DATA : Kind.BSS);
  }
}
