package dev.ullage.measure;

import dev.ullage.measure.ElfProgram.Section;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * A place in an object file that the linker fills in.
 *
 * @param section number of the section that the place is in
 * @param offset of the place in it
 * @param type as the machine's supplement to the ABI numbers it
 * @param name number of the name in the symbol table
 * @param addend what is added to the address of the name; 0 where the place itself holds it
 */
record Relocation(int section, int offset, int type, int name, int addend) {
  // System V ABI, chapter 4: SHT_RELA, SHT_REL and their entries.
  private static final int WITH_ADDEND = 4;
  private static final int WITHOUT_ADDEND = 9;

  /** All of a 32-bit file, by section and offset; those of one place in the order of the file. */
  static List<Relocation> all(ElfHeaders headers, ElfProgram program) {
    List<Relocation> all = new ArrayList<>();
    for (int i = 1; i < program.sections().size(); i++) {
      int type = headers.sectionType(i);
      if (type == WITH_ADDEND || type == WITHOUT_ADDEND) {
        read(headers, program, i, type == WITH_ADDEND, all);
      }
    }
    all.sort(Comparator.comparingInt(Relocation::section).thenComparingInt(Relocation::offset));
    return all;
  }

  private static void read(
      ElfHeaders headers, ElfProgram program, int from, boolean stated, List<Relocation> all) {
    int to = headers.info(from);
    Section section = program.section(to).orElseThrow(() -> headers.damaged("stray relocations"));
    if (!section.allocated()) {
      return;
    }
    ElfProgram.Contents rows = program.sections().get(from).contents();
    for (int at = 0; at + (stated ? 12 : 8) <= rows.length(); at += stated ? 12 : 8) {
      int info = rows.word(at + 4);
      int offset = rows.word(at);
      if (offset < 0 || offset >= section.size() || info >>> 8 >= program.names().size()) {
        throw headers.damaged("a relocation outside its section, or to a symbol that is not there");
      }
      int addend = stated ? rows.word(at + 8) : 0;
      all.add(new Relocation(to, offset, info & 0xFF, info >>> 8, addend));
    }
  }
}
