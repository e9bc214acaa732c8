package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Binding;
import dev.ullage.measure.ElfProgram.Contents;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * An object file for ARM or RISC-V with its sections at made-up addresses and all places filled in,
 * so that its code can be followed as that of a linked program. For what other files define there
 * are routines that return at once.
 */
final class TrialLink {
  /** What linker scripts drop: tables for stepping back through calls that fail. */
  private static final Pattern DROPPED = Pattern.compile("\\.(ARM\\.ex|eh_frame|note).*");

  private static final int CODE = 0x1000;
  private static final int RAM = 0x20000000;
  private static final int MOST_CODE = 0x80000;
  private static final int STAND_IN_BYTES = 4;
  private static final int THUMB_RETURN = 0x47704770; // bx lr
  private static final int RISCV_RETURN = 0x80828082; // ret

  private final ElfHeaders headers;
  private final ElfProgram object;
  private final List<Integer> addresses = new ArrayList<>();
  private final List<byte[]> contents = new ArrayList<>();
  private final Map<Integer, Integer> standIns = new HashMap<>();
  private final List<Relocation> relocations;
  private int nextCode = CODE;
  private int nextRam = RAM;

  TrialLink(ElfHeaders headers, ElfProgram object) {
    this.headers = headers;
    this.object = object;
    for (int i = 0; i < object.sections().size(); i++) {
      addresses.add(counts(i) ? place(object.sections().get(i), headers.alignment(i)) : 0);
      contents.add(copy(object.sections().get(i)));
    }
    nextCode = roundUp(nextCode, STAND_IN_BYTES);
    for (int i = 0; i < object.names().size(); i++) {
      if (isElsewhere(object.names().get(i))) {
        standIns.put(i, nextCode + STAND_IN_BYTES * standIns.size());
      }
    }
    this.relocations =
        Relocation.all(headers, object).stream().filter(each -> counts(each.section())).toList();
  }

  /** Places that were filled in, by section and offset. */
  List<Relocation> relocations() {
    return relocations;
  }

  /** Whether a section is part of the program: in memory, not empty, and not dropped. */
  boolean counts(int section) {
    return object
        .section(section)
        .filter(each -> each.allocated() && each.size() > 0)
        .filter(each -> !DROPPED.matcher(each.name()).matches())
        .isPresent();
  }

  /** The number that the section with the stand-ins has in {@link #program}. */
  int elsewhere() {
    return object.sections().size();
  }

  /** The file as if it were linked. Changes what {@link #goal} answers: ask before. */
  ElfProgram program() {
    for (Relocation each : relocations) {
      Patch at = patch(each);
      int goal = goal(each);
      boolean reached = isArm() ? thumb(at, each, goal) : RiscvPatch.apply(at, each.type(), goal);
      if (!reached) {
        throw headers.damaged("a jump that cannot reach its goal");
      }
    }
    return new ElfProgram(
        object.file(),
        object.machine(),
        object.flags(),
        true,
        sections(),
        names(),
        object.compiler());
  }

  private static boolean thumb(Patch at, Relocation relocation, int goal) {
    return ThumbPatch.apply(at, relocation.type(), goal);
  }

  /** The address that a place is filled in with, or is told the distance to. */
  int goal(Relocation relocation) {
    int inPlace = isArm() ? ThumbPatch.addend(patch(relocation), relocation.type()) : 0;
    return address(relocation.name()) + relocation.addend() + inPlace;
  }

  private Patch patch(Relocation each) {
    return new Patch(
        contents.get(each.section()), each.offset(), addresses.get(each.section()) + each.offset());
  }

  private boolean isArm() {
    return object.machine() == ElfProgram.ARM;
  }

  private static boolean isElsewhere(Name name) {
    return name.section() == 0 && name.binding() != Binding.LOCAL && !name.text().isEmpty();
  }

  private int address(int name) {
    Name row = object.names().get(name);
    int thumb = isArm() ? 1 : 0;
    return standIns.containsKey(name)
        ? standIns.get(name) | thumb
        : (int) row.value() + (counts(row.section()) ? addresses.get(row.section()) : 0);
  }

  private int place(Section section, int alignment) {
    boolean ram = section.writable();
    int address = roundUp(ram ? nextRam : nextCode, alignment);
    int end = Math.addExact(address, section.size());
    if (end > (ram ? 2 * RAM - 1 : CODE + MOST_CODE)) {
      throw headers.wrong("larger", "an object file of at most " + MOST_CODE + " bytes");
    }
    if (ram) {
      nextRam = end;
    } else {
      nextCode = end;
    }
    return address;
  }

  private static int roundUp(int address, int alignment) {
    return (address + alignment - 1) / alignment * alignment;
  }

  private static byte[] copy(Section section) {
    byte[] bytes = new byte[section.allocated() ? section.contents().length() : 0];
    for (int i = 0; i < bytes.length; i++) {
      bytes[i] = (byte) section.contents().at(i);
    }
    return bytes;
  }

  private List<Section> sections() {
    List<Section> sections = new ArrayList<>();
    for (int i = 0; i < object.sections().size(); i++) {
      Section each = object.sections().get(i);
      byte[] bytes = contents.get(i);
      sections.add(
          new Section(
              each.name(),
              addresses.get(i),
              addresses.get(i),
              each.size(),
              counts(i),
              each.writable(),
              each.executable(),
              each.filled(),
              each.threadLocal(),
              new Contents(bytes, 0, bytes.length)));
    }
    sections.add(standIns());
    return sections;
  }

  private Section standIns() {
    byte[] bytes = new byte[STAND_IN_BYTES * standIns.size()];
    for (int at = 0; at < bytes.length; at += STAND_IN_BYTES) {
      new Patch(bytes, at, 0).putWord(isArm() ? THUMB_RETURN : RISCV_RETURN);
    }
    int address = nextCode;
    Contents returns = new Contents(bytes, 0, bytes.length);
    return new Section(
        "elsewhere", address, address, bytes.length, true, false, true, true, false, returns);
  }

  private List<Name> names() {
    List<Name> names = new ArrayList<>();
    for (int i = 0; i < object.names().size(); i++) {
      Name each = object.names().get(i);
      boolean here = !standIns.containsKey(i);
      names.add(
          new Name(
              each.text(),
              here ? each.section() : elsewhere(),
              address(i) & 0xFFFFFFFFL,
              here ? each.size() : STAND_IN_BYTES,
              here ? each.type() : Type.FUNCTION,
              each.binding(),
              each.source()));
    }
    // A mark that code begins: what lies before may be data.
    String mark = isArm() ? "$t" : "$x";
    names.add(
        new Name(mark, elsewhere(), nextCode, 0, Type.PLACE, Binding.LOCAL, Optional.empty()));
    return names;
  }
}
