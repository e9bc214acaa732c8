package dev.ullage.audit;

import dev.ullage.audit.LinkerMap.Stretch;
import dev.ullage.measure.ElfProgram;
import dev.ullage.measure.ElfProgram.Binding;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import dev.ullage.measure.Shape;
import dev.ullage.measure.Symbol.Kind;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.IntPredicate;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Shares one section out: every byte goes to the name that covers it, and to the object file that
 * the map gives it to. Names without a size reach to whatever starts next.
 */
final class Portions {
  private static final String LINKER = "linker";
  private static final Pattern TEMPORARY = Pattern.compile("cc[A-Za-z0-9]{6}(\\..*)?\\.o(bj)?");

  /** Compilers number the names that functions keep to themselves, and count anew each time. */
  private static final Pattern NUMBER = Pattern.compile("\\.[0-9]+$");

  private final ElfProgram program;
  private final Section section;
  private final Kind kind;
  private final Optional<TreeMap<Long, Stretch>> map;
  private final Map<String, String> sources = new HashMap<>();
  private final TreeMap<Integer, Name> starts = new TreeMap<>();
  private final TreeMap<Integer, Boolean> marks = new TreeMap<>();
  private final TreeSet<Integer> cuts = new TreeSet<>();

  Portions(
      ElfProgram program, Section section, Kind kind, List<Name> names, Optional<LinkerMap> map) {
    this.program = program;
    this.section = section;
    this.kind = kind;
    this.map = map.map(each -> each.stretches(section.name()));
    names.forEach(this::place);
    names.forEach(this::learnSource);
  }

  void addTo(List<Piece> pieces) {
    cuts.add(0);
    cuts.add(section.size());
    starts.forEach(this::cut);
    stretches().forEach(this::cut);
    Name covering = null;
    Name holder = null;
    int from = 0;
    for (int to : cuts.tailSet(1)) {
      Name starting = starts.get(from);
      if (starting != null) {
        holder = starting;
        covering = covering == null || end(starting) >= end(covering) ? starting : covering;
      }
      Optional<Stretch> stretch = stretch(from);
      Optional<Name> owner = owner(holder, covering, from, stretch);
      pieces.add(piece(owner, stretch, from, to));
      from = to;
    }
  }

  private void place(Name name) {
    long offset = name.value() - section.address();
    if (program.machine() == ElfProgram.ARM && name.type() == Type.FUNCTION) {
      offset &= ~1L; // the lowest bit says which instruction set it is in
    }
    if (offset < 0 || offset >= section.size()) {
      return;
    }
    boolean mark = name.text().startsWith("$");
    if (mark) {
      marks.put((int) offset, name.text().startsWith("$d"));
    }
    boolean counts =
        name.type() == Type.FUNCTION
            || name.type() == Type.OBJECT
            || name.type() == Type.PLACE && name.binding() != Binding.LOCAL;
    if (counts && !mark && !name.text().isEmpty()) {
      starts.merge((int) offset, name, (one, other) -> rank(other) > rank(one) ? other : one);
    }
  }

  /** Objects that the compiler made in passing are told by the source of a name inside. */
  private void learnSource(Name name) {
    name.source()
        .ifPresent(
            source ->
                stretch((int) (name.value() - section.address()))
                    .ifPresent(in -> sources.putIfAbsent(in.object(), source)));
  }

  /** Of several names of one place: what the compiler marked, then what has a size, then global. */
  private static int rank(Name name) {
    return (name.type() == Type.PLACE ? 0 : 8)
        + (name.size() > 0 ? 4 : 0)
        + (name.binding() == Binding.GLOBAL ? 2 : 0)
        + (name.binding() == Binding.WEAK ? 1 : 0);
  }

  private void cut(int start, Name name) {
    cuts.add(start);
    if (name.size() > 0) {
      cuts.add(end(name));
    }
  }

  private void cut(Stretch stretch) {
    cuts.add(inside(stretch.address()));
    cuts.add(inside(stretch.end()));
  }

  private int inside(long address) {
    return (int) Math.max(0, Math.min(section.size(), address - section.address()));
  }

  private Collection<Stretch> stretches() {
    return map.map(TreeMap::values).orElse(List.of());
  }

  private Optional<Stretch> stretch(int offset) {
    long address = section.address() + offset;
    return map.map(each -> each.floorEntry(address))
        .map(Map.Entry::getValue)
        .filter(found -> address < found.end());
  }

  /** Offset of the byte after a name; its own start where it has no size. */
  private int end(Name name) {
    long start = name.value() - section.address();
    if (program.machine() == ElfProgram.ARM && name.type() == Type.FUNCTION) {
      start &= ~1L;
    }
    return (int) Math.min(section.size(), start + Math.min(name.size(), section.size()));
  }

  private Optional<Name> owner(
      @Nullable Name holder, @Nullable Name covering, int at, Optional<Stretch> stretch) {
    if (holder == null) {
      return Optional.empty();
    }
    if (at < end(holder) || holder.size() == 0 && isSameStretch(holder, stretch)) {
      return Optional.of(holder);
    }
    return covering != null && at < end(covering) ? Optional.of(covering) : Optional.empty();
  }

  private boolean isSameStretch(Name name, Optional<Stretch> stretch) {
    return map.isEmpty()
        || stretch.isPresent() && stretch((int) (name.value() - section.address())).equals(stretch);
  }

  private Piece piece(Optional<Name> owner, Optional<Stretch> stretch, int from, int to) {
    boolean fill = map.isPresent() && stretch.isEmpty() && owner.isEmpty();
    String symbol =
        owner
            .map(name -> NUMBER.matcher(name.text()).replaceFirst(""))
            .orElse(
                fill ? "(fill)" : '(' + stretch.map(Stretch::section).orElse(section.name()) + ')');
    String object = fill ? LINKER : object(owner, stretch);
    boolean constant = owner.filter(name -> name.type() == Type.OBJECT).isPresent();
    Kind own = kind == Kind.CODE && constant ? Kind.RODATA : kind;
    return new Piece(symbol, object, own, to - from, shape(own, from, to));
  }

  private String object(Optional<Name> owner, Optional<Stretch> stretch) {
    String mapped = stretch.map(Stretch::object).orElse("");
    if (mapped.equals("linker stubs")) {
      return LINKER;
    }
    if (!mapped.isEmpty() && !TEMPORARY.matcher(mapped).matches()) {
      return mapped;
    }
    return owner
        .flatMap(Name::source)
        .or(() -> Optional.ofNullable(sources.get(mapped)))
        .map(Piece::objectName)
        .orElse("");
  }

  private String shape(Kind own, int from, int to) {
    if (!section.filled()) {
      return "";
    }
    boolean code = section.executable() && own != Kind.RODATA;
    return code
        ? Shape.ofCode(program.machine(), section.contents(), from, to, isData())
        : Shape.ofConstants(section.contents(), from, to);
  }

  private IntPredicate isData() {
    return marks.isEmpty()
        ? at -> false
        : at -> {
          Map.Entry<Integer, Boolean> mark = marks.floorEntry(at);
          return mark != null && mark.getValue();
        };
  }

  /** One piece for each name of each object file and kind, in a fixed order. */
  static List<Piece> merged(List<Piece> pieces) {
    Map<List<Object>, Piece> merged = new LinkedHashMap<>();
    for (Piece each : pieces) {
      merged.merge(List.of(each.symbol(), each.object(), each.kind()), each, Portions::together);
    }
    List<Piece> sorted = new ArrayList<>(merged.values());
    sorted.sort(Baseline.ORDER);
    return sorted;
  }

  private static Piece together(Piece one, Piece other) {
    String shape = "";
    if (!one.shape().isEmpty()) {
      int both =
          31 * Integer.parseUnsignedInt(one.shape(), 16)
              + Integer.parseUnsignedInt(other.shape(), 16);
      shape = "%08x".formatted(both);
    }
    return new Piece(
        one.symbol(), one.object(), one.kind(), Math.addExact(one.bytes(), other.bytes()), shape);
  }
}
