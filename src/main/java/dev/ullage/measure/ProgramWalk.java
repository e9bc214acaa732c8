package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Contents;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;

/** Walks every routine of a linked program for ARM or RISC-V. */
final class ProgramWalk {
  /** Routines that end in a call of what never returns do not return either, and so on. */
  private static final int MOST_ROUNDS = 6;

  /** More than a program of 512 KiB needs, some routines of which are walked twice. */
  private static final int MOST_STEPS = 600_000;

  /** Half of the registers: RISC-V ELF psABI, {@code EF_RISCV_RVE}. */
  private static final int RVE = 8;

  private final ElfProgram program;
  private final ProgramNames names;
  private final CodeSection code;
  private final RegisterMachine machine;

  ProgramWalk(ElfProgram program, ProgramNames names) {
    this.program = program;
    this.names = names;
    this.code = readCode();
    this.machine =
        program.machine() == ElfProgram.ARM
            ? new RegisterMachine(Convention.ARM, ThumbInstruction::decode, OptionalInt.empty())
            : new RegisterMachine(
                Convention.riscv((program.flags() & RVE) != 0),
                RiscvInstruction::decode,
                globalPointer());
  }

  /** The code that is walked, with addresses for offsets. */
  CodeSection code() {
    return code;
  }

  private CodeSection readCode() {
    Map<Integer, Contents> stretches = new HashMap<>();
    Map<Integer, String> entries = new HashMap<>();
    Map<Integer, Integer> ends = new HashMap<>();
    for (Section each : program.sections()) {
      if (isCode(each)) {
        stretches.put((int) each.address(), each.contents());
        entries.put((int) each.address(), each.name());
      }
    }
    names.starts().forEach((address, name) -> addEntry(address, name, entries, ends));
    CodeSection all =
        new CodeSection(stretches, program.file(), entries, ends, new Patience(MOST_STEPS));
    for (Section each : program.sections()) {
      if (each.allocated() && each.filled() && !each.writable() && !each.executable()) {
        all.addConstants((int) each.address(), each.contents());
      }
    }
    names.marks().forEach(all::mark);
    names.addParts(all);
    return all;
  }

  static boolean isCode(Section section) {
    return section.allocated() && section.filled() && section.executable() && section.size() > 0;
  }

  private void addEntry(
      int address, Name name, Map<Integer, String> entries, Map<Integer, Integer> ends) {
    if (program.section(name.section()).filter(ProgramWalk::isCode).isEmpty()) {
      return;
    }
    if (ProgramNames.isPart(name)) {
      entries.remove(address);
      return;
    }
    entries.put(address, names.text(name));
    if (name.type() == Type.FUNCTION && name.size() > 0) {
      ends.put(address, address + (int) Math.min(name.size(), 1 << 24));
    }
  }

  /** What the start-up code puts into register 3, so that the linker may count on it. */
  private OptionalInt globalPointer() {
    return program.names().stream()
        .filter(each -> each.text().equals("__global_pointer$"))
        .mapToInt(each -> (int) each.value())
        .findFirst();
  }

  /** What each routine does, by address; those inside of others too that are called. */
  TreeMap<Integer, Routine> routines() {
    TreeMap<Integer, Routine> routines = new TreeMap<>();
    Deque<Integer> work = new ArrayDeque<>(code.entries().keySet());
    Set<String> endless = new HashSet<>();
    for (int i = 0; i < MOST_ROUNDS && !work.isEmpty(); i++) {
      walkAll(work, routines);
      Set<String> more = new HashSet<>();
      routines.forEach(
          (address, routine) -> {
            if (!routine.returns() && endless.add(code.place(address))) {
              code.markEndless(address);
              more.add(code.place(address));
            }
          });
      routines.entrySet().stream()
          .filter(each -> leadsTo(each.getValue(), more))
          .map(Map.Entry::getKey)
          .forEach(work::add);
      routines.keySet().removeAll(work);
    }
    walkAll(work, routines);
    return routines;
  }

  private static boolean leadsTo(Routine routine, Set<String> names) {
    return routine.edges().stream().anyMatch(edge -> names.contains(edge.target()));
  }

  private void walkAll(Deque<Integer> work, TreeMap<Integer, Routine> routines) {
    while (!work.isEmpty()) {
      int address = work.remove();
      if (!routines.containsKey(address)) {
        routines.put(address, walk(address));
        // Walking finds places inside that are called, and they have to be walked too.
        work.addAll(code.madeUp());
      }
    }
  }

  private Routine walk(int address) {
    Optional<Name> name = Optional.ofNullable(names.starts().get(address));
    if (name.filter(each -> each.type() == Type.OBJECT).isPresent() || code.isData(address)) {
      return Routine.NONE;
    }
    if (name.filter(names::isForeign).isPresent()) {
      String why = code.place(address) + " is ARM code, and only Thumb code is followed";
      return new Routine(0, List.of(), Optional.of(why), false, true, false);
    }
    return RoutineWalk.walk(code, machine, address);
  }
}
