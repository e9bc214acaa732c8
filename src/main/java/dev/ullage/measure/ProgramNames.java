package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Binding;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;

/** What starts where in a linked program for ARM or RISC-V, by address. */
final class ProgramNames {
  /** Marks of where code and data begin: ELF for the Arm Architecture, 5.5.5; RISC-V psABI. */
  private static final Pattern MARK = Pattern.compile("\\$[adtx].*");

  /** Parts that a routine is in while its stack is the caller's: rarely run blocks, millicode. */
  private static final Pattern PART =
      Pattern.compile("(.+)\\.cold(\\.[0-9]+)?|__riscv_(save|restore)_[0-9]+");

  private final boolean thumb;
  private final ElfProgram program;
  private final TreeMap<Integer, Name> starts = new TreeMap<>();
  private final Map<Name, String> texts = new LinkedHashMap<>();
  private final List<Name> seconds = new ArrayList<>();
  private final TreeMap<Integer, Boolean> marks = new TreeMap<>();

  ProgramNames(ElfProgram program) {
    this.program = program;
    this.thumb = program.machine() == ElfProgram.ARM;
    Set<String> taken = new HashSet<>();
    for (Name each : program.names()) {
      boolean placed = program.section(each.section()).filter(Section::allocated).isPresent();
      if (placed && isMark(each)) {
        char kind = each.text().charAt(1);
        marks.put((int) each.value(), kind == 'd' || kind == 'a');
      } else if (placed && isStart(each)) {
        texts.put(each, unique(each, taken));
        starts.merge(address(each), each, this::better);
      }
    }
    texts.keySet().stream().filter(each -> !starts.containsValue(each)).forEach(seconds::add);
  }

  private static boolean isMark(Name name) {
    return name.type() == Type.PLACE
        && name.binding() == Binding.LOCAL
        && MARK.matcher(name.text()).matches();
  }

  private boolean isStart(Name name) {
    Section section = program.section(name.section()).orElseThrow();
    long inside = address(name) - (long) (int) section.address();
    boolean named =
        name.type() == Type.FUNCTION
            || name.type() == Type.OBJECT
            || name.type() == Type.PLACE && name.binding() != Binding.LOCAL;
    return named && inside >= 0 && inside < section.size();
  }

  /** Linked programs may hold several local names that are the same; later ones get a number. */
  private static String unique(Name name, Set<String> taken) {
    String unique = name.text();
    for (int i = 2; !taken.add(unique); i++) {
      unique = name.text() + '#' + i;
    }
    return unique;
  }

  /** Of several names of one place: what the compiler marked, then what has a size, then global. */
  private Name better(Name one, Name other) {
    return rank(other) > rank(one) ? other : one;
  }

  private static int rank(Name name) {
    return (name.type() == Type.PLACE ? 0 : 8)
        + (name.size() > 0 ? 4 : 0)
        + (name.binding() == Binding.GLOBAL ? 2 : 0)
        + (name.binding() == Binding.LOCAL ? 0 : 1);
  }

  /** Addresses of Thumb routines have their lowest bit set, which is not part of the place. */
  int address(Name name) {
    boolean code = program.section(name.section()).filter(Section::executable).isPresent();
    return (int) (thumb && code && name.type() != Type.OBJECT ? name.value() & ~1L : name.value());
  }

  /** Whether a routine is written in instructions that are not followed here: those of ARM. */
  boolean isForeign(Name name) {
    return thumb && name.type() == Type.FUNCTION && (name.value() & 1) == 0;
  }

  /** The best name of each place. */
  TreeMap<Integer, Name> starts() {
    return starts;
  }

  /** Further names of places that have a better one. */
  List<Name> seconds() {
    return seconds;
  }

  /** What a name is called in figures, which no two are. */
  String text(Name name) {
    return texts.getOrDefault(name, name.text());
  }

  static boolean isPart(Name name) {
    return PART.matcher(name.text()).matches();
  }

  /** Marks of where data begins, and where it ends. */
  Map<Integer, Boolean> marks() {
    return marks;
  }

  /** Tells a walk which stretches belong to routines that start elsewhere. */
  void addParts(CodeSection code) {
    Map<String, Integer> owners = new HashMap<>();
    starts.forEach((address, name) -> owners.putIfAbsent(name.text(), address));
    starts.forEach(
        (address, name) -> {
          String text = name.text();
          int cold = text.indexOf(".cold");
          Optional.ofNullable(cold < 0 ? null : owners.get(text.substring(0, cold)))
              .ifPresent(
                  owner ->
                      code.addPart(owner, address, address + (int) Math.min(name.size(), 1 << 24)));
        });
  }
}
