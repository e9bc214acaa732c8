package dev.ullage.measure;

import dev.ullage.input.InputException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
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
 *     them, such as {@code __do_clear_bss}
 */
public record ObjectFile(
    String name, int returnAddressBytes, List<Symbol> symbols, List<String> needs) {

  public ObjectFile {
    symbols = List.copyOf(symbols);
    needs = List.copyOf(needs);
  }

  /**
   * @throws InputException where the file is no AVR object file, or a damaged one
   */
  public static ObjectFile read(Path file) throws IOException {
    return read(String.valueOf(file.getFileName()), Files.readAllBytes(file));
  }

  /**
   * @param name what findings call it
   * @throws InputException where the bytes are no AVR object file, or a damaged one
   */
  public static ObjectFile read(String name, byte[] bytes) {
    ElfImage image = new ElfImage(name, bytes);
    if (!image.isRelocatable()) {
      throw image.wrong("a linked program", "an object file");
    }
    try {
      return new ObjectFile(
          name, image.returnAddressBytes(), new SymbolReader(image).read(), needs(image));
    } catch (ArithmeticException | IndexOutOfBoundsException e) {
      throw image.damaged("symbols outside their sections");
    }
  }

  private static List<String> needs(ElfImage image) {
    Set<Integer> used =
        image.sections().stream()
            .flatMap(section -> section.relocations().stream())
            .map(ElfImage.Relocation::symbol)
            .collect(Collectors.toSet());
    Set<String> needs = new TreeSet<>();
    for (int i = 1; i < image.rows().size(); i++) {
      ElfImage.Row row = image.rows().get(i);
      if (row.section() == 0 && !row.isLocal() && !used.contains(i)) {
        needs.add(row.name());
      }
    }
    return List.copyOf(needs);
  }
}
