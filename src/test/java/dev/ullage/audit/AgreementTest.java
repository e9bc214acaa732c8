package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.measure.ElfProgram;
import dev.ullage.measure.ElfProgram.Name;
import dev.ullage.measure.ElfProgram.Section;
import dev.ullage.measure.ElfProgram.Type;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The same figures as {@code size}, {@code nm}, {@code readelf} and {@code objdump} print. */
class AgreementTest {
  @TempDir private Path folder;

  @ParameterizedTest
  @EnumSource
  void builtProgram_agreesWithItsOwnTools(BuiltProgram built) throws IOException {
    built.require();
    Path program = built.build(folder, BuiltProgram.SOURCE);
    assertAgrees(program, built);
    assertSizesAgree(program, built, Artefacts.read(program, Optional.empty()));
    Measured measured = Artefacts.read(program, Optional.empty());
    Measured.Share own = measured.modules().get("main");
    assertTrue(own.flash() > 20 && own.ram() > 36, own.toString());
    assertEquals(36, ram(measured, "window"));
    assertEquals(2, ram(measured, "counter"), "a variable of a function, without its number");
  }

  private static int ram(Measured measured, String symbol) {
    return measured.pieces().stream()
        .filter(each -> each.symbol().equals(symbol))
        .mapToInt(Piece::ram)
        .sum();
  }

  /** Programs that nobody built for this: stripped, shared, of whatever compiler. */
  @ParameterizedTest
  @ValueSource(strings = {"/bin/ls", "/usr/bin/make", "/usr/bin/env", "/bin/bash"})
  void foreignProgram_agrees(String path) {
    BuiltProgram.HOST.require();
    Tool.requireFile(Path.of(path), path);
    assertAgrees(Path.of(path), BuiltProgram.HOST);
    Measured measured =
        new ElfReading(read(Path.of(path)), Optional.empty(), new CallFiles()).measure(new byte[0]);
    assertSizesAgree(Path.of(path), BuiltProgram.HOST, measured);
  }

  static List<Path> avrLibrary() throws IOException {
    Path library = Path.of("/usr/lib/avr/lib/avr5");
    if (!Files.exists(library)) {
      return List.of(library.resolve("crtatmega328p.o"));
    }
    try (Stream<Path> files = Files.list(library)) {
      return files.filter(file -> file.toString().endsWith(".o")).sorted().limit(12).toList();
    }
  }

  @ParameterizedTest
  @MethodSource("avrLibrary")
  void foreignObjectFile_agrees(Path file) {
    BuiltProgram.AVR.require();
    Tool.requireFile(file, "avr-libc");
    assertAgrees(file, BuiltProgram.AVR);
  }

  private static ElfProgram read(Path file) {
    try {
      return ElfProgram.read(file.toString(), Files.readAllBytes(file));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private void assertAgrees(Path file, BuiltProgram built) {
    ElfProgram program = read(file);
    assertEquals(named(file, built), named(program), file.toString());
    assertEquals(sections(file, built), sections(program), file.toString());
    assertFalse(sections(program).isEmpty());
  }

  /** How often each line of {@code nm} is there: value, size where there is one, name. */
  private SortedMap<String, Integer> named(Path file, BuiltProgram built) {
    SortedMap<String, Integer> lines = new TreeMap<>();
    String text = Tool.output(folder, built.tool("nm"), "-S", "--defined-only", file.toString());
    for (String line : text.lines().toList()) {
      String[] words = line.split(" ");
      if (words.length >= 3 && words[0].matches("[0-9a-f]+")) {
        String size = words.length > 3 ? words[1] : "0";
        lines.merge(
            Long.parseUnsignedLong(words[0], 16)
                + " "
                + Long.parseUnsignedLong(size, 16)
                + " "
                + words[words.length - 1].replaceFirst("@.*", ""),
            1,
            Integer::sum);
      }
    }
    return lines;
  }

  private static SortedMap<String, Integer> named(ElfProgram program) {
    SortedMap<String, Integer> lines = new TreeMap<>();
    for (Name each : program.names()) {
      boolean shown = each.type() != Type.MARK && each.section() != 0 && !each.text().isEmpty();
      // nm leaves out the marks between code and constants.
      if (shown && !each.text().matches("\\$[adtx].*")) {
        String name = each.text().replaceFirst("@.*", "");
        boolean thumb = program.machine() == ElfProgram.ARM && each.type() == Type.FUNCTION;
        long value = thumb ? each.value() & ~1L : each.value();
        lines.merge(value + " " + each.size() + " " + name, 1, Integer::sum);
      }
    }
    return lines;
  }

  /** Name, size, address and load address, as {@code objdump -h} has them. */
  private List<String> sections(Path file, BuiltProgram built) {
    return Tool.output(folder, built.tool("objdump"), "-hw", file.toString())
        .lines()
        .filter(line -> line.matches(" +[0-9]+ .*CONTENTS.*ALLOC.*"))
        .map(line -> line.strip().split("\\s+"))
        .map(w -> w[1] + " " + hex(w[2]) + " " + hex(w[3]) + " " + hex(w[4]))
        .toList();
  }

  private static List<String> sections(ElfProgram program) {
    return program.sections().stream()
        .filter(each -> each.allocated() && each.filled())
        .map(e -> e.name() + " " + e.size() + " " + e.address() + " " + e.loadAddress())
        .toList();
  }

  private static long hex(String digits) {
    return Long.parseUnsignedLong(digits, 16);
  }

  private void assertSizesAgree(Path file, BuiltProgram built, Measured measured) {
    String line = Tool.output(folder, built.tool("size"), file.toString()).lines().toList().get(1);
    String[] words = line.strip().split("\\s+");
    Figures figures = measured.figures();
    assertEquals(
        Integer.parseInt(words[0]),
        figures.vectors() + figures.code() + figures.constants(),
        "text of " + file);
    assertEquals(Integer.parseInt(words[1]), figures.data() + figures.eeprom(), "data of " + file);
    assertEquals(
        Integer.parseInt(words[2]), figures.zeroed() + figures.reserved(), "bss of " + file);
    int pieces = measured.pieces().stream().mapToInt(Piece::flash).sum();
    assertEquals(figures.flash(), pieces, "every byte of flash has a name");
    assertEquals(
        figures.staticRam(), measured.pieces().stream().mapToInt(Piece::ram).sum(), "and of RAM");
  }

  @ParameterizedTest
  @EnumSource
  void segments_areThoseOfReadelf(BuiltProgram built) throws IOException {
    built.require();
    Path program = built.build(folder, BuiltProgram.SOURCE);
    List<long[]> loads =
        Tool.output(folder, built.tool("readelf"), "-lW", program.toString())
            .lines()
            .filter(line -> line.strip().startsWith("LOAD"))
            .map(line -> line.strip().split("\\s+"))
            .map(w -> new long[] {hex0x(w[2]), hex0x(w[3]), hex0x(w[4])})
            .toList();
    for (Section each : read(program).sections()) {
      if (each.allocated() && each.filled() && each.size() > 0) {
        assertTrue(
            loads.stream()
                .anyMatch(
                    load ->
                        each.address() >= load[0]
                            && each.address() + each.size() <= load[0] + load[2]
                            && each.loadAddress() - each.address() == load[1] - load[0]),
            each.name());
      }
    }
    assertTrue(loads.size() > 1);
  }

  private static long hex0x(String word) {
    return hex(word.substring(2));
  }
}
