package dev.ullage.measure;

import dev.ullage.input.InputException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * What one compiled source file brings, before it is linked.
 *
 * <p>Constants that are not marked for program memory are initialised data on AVR: they take RAM as
 * well as flash.
 *
 * @param name of the file, or of the member of an archive
 * @param returnAddressBytes what a call puts on the stack
 * @param symbols in the order of the file
 * @param needs names that the file wants to have in the program although nothing in it refers to
 *     them, such as {@code __do_clear_bss}, its own start-up code included
 */
public record ObjectFile(
    String name, int returnAddressBytes, List<Symbol> symbols, List<String> needs) {

  /** Sections that the linker scripts of the GNU toolchain never drop. */
  private static final Pattern KEPT = Pattern.compile("\\.(init|fini)[0-9]|\\.vectors");

  public ObjectFile {
    symbols = List.copyOf(symbols);
    needs = List.copyOf(needs);
  }

  /**
   * @throws InputException where the file is no object file for AVR, ARM or RISC-V, or a damaged
   *     one
   */
  public static ObjectFile read(Path file) throws IOException {
    return read(String.valueOf(file.getFileName()), Files.readAllBytes(file));
  }

  /**
   * @param name what findings call it
   * @throws InputException where the bytes are no object file for AVR, ARM or RISC-V, or a damaged
   *     one
   */
  public static ObjectFile read(String name, byte[] bytes) {
    int machine = LinkedProgram.machine(bytes);
    return machine == ElfProgram.ARM || machine == ElfProgram.RISCV
        ? MachineObject.read(name, bytes)
        : readAvr(name, bytes);
  }

  private static ObjectFile readAvr(String name, byte[] bytes) {
    ElfImage image = new ElfImage(name, bytes);
    if (!image.isRelocatable()) {
      throw image.wrong("a linked program", "an object file");
    }
    try {
      SymbolReader reader = new SymbolReader(image);
      return new ObjectFile(name, image.returnAddressBytes(), reader.read(), needs(image, reader));
    } catch (ArithmeticException | IndexOutOfBoundsException e) {
      throw image.damaged("symbols outside their sections");
    }
  }

  private static List<String> needs(ElfImage image, SymbolReader reader) {
    Set<Integer> used =
        image.sections().stream()
            .flatMap(section -> section.relocations().stream())
            .map(ElfImage.Relocation::symbol)
            .collect(Collectors.toSet());
    Set<String> needs = new TreeSet<>();
    for (ElfImage.Section each : image.sections()) {
      if (each.allocated() && each.size() > 0 && KEPT.matcher(each.name()).matches()) {
        needs.add(reader.nameAt(each, 0).orElse(each.name()));
      }
    }
    for (int i = 1; i < image.rows().size(); i++) {
      ElfImage.Row row = image.rows().get(i);
      if (row.section() == 0 && !row.isLocal() && !used.contains(i)) {
        needs.add(row.name());
      }
    }
    return List.copyOf(needs);
  }
}
