package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import dev.ullage.measure.Symbol.Edge;
import dev.ullage.measure.Symbol.Kind;
import dev.ullage.measure.Symbol.Place;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Object files for Cortex-M and RISC-V, held against the compiler and the binutils. */
class MachineObjectTest {
  private static final String WORKER =
      """
      #include <stdint.h>
      void other(uint8_t *at);
      uint8_t window[9];
      static int32_t first = 70000;
      static const uint16_t steps[3] = {1, 2, 400};
      void hand_over(void) { other(window); }
      int32_t weigh(uint8_t which) {
          uint8_t bytes[40];
          other(bytes);
          other(window);
          first += steps[which];
          return first + bytes[3];
      }
      """;

  @TempDir Path folder;

  @ParameterizedTest
  @EnumSource(CrossTools.class)
  void sizesAndFrames_areThoseOfNmAndTheCompiler(CrossTools tools) throws IOException {
    tools.require();
    Path object =
        tools.compile(
            folder,
            "frames.c",
            PortableSnippets.FRAMES,
            "-Os",
            "-ffunction-sections",
            "-fdata-sections");
    Map<String, Symbol> symbols = byName(ObjectFile.read(object));
    int sizes = 0;
    for (String line : tools.output(folder, "nm", "-S", "frames.o").split("\n")) {
      String[] words = line.strip().split(" +");
      // Code is filled up to its alignment, which the tool does not count.
      if (words.length == 4) {
        Symbol symbol = symbols.get(words[3]);
        int alignment = ((Place.Aligned) symbol.place()).bytes();
        int bytes = Integer.parseInt(words[1], 16);
        int most = symbol.kind() == Kind.CODE ? alignment - 1 : 0;
        assertTrue(symbol.bytes() >= bytes && symbol.bytes() <= bytes + most, line + symbol);
        sizes++;
      }
    }
    assertTrue(sizes > 20, "compared " + sizes);
    for (String line : Files.readAllLines(folder.resolve("frames.su"))) {
      String[] fields = line.split("\t");
      String name = fields[0].substring(fields[0].lastIndexOf(':') + 1);
      // Registers with arguments that `va_arg` walks over are left out by the compiler.
      if (fields[2].equals("static") && !name.equals("sum")) {
        assertEquals(Integer.parseInt(fields[1]), symbols.get(name).ownStack(), line);
        assertEquals(Optional.empty(), symbols.get(name).unbounded(), line);
      }
    }
  }

  @ParameterizedTest
  @EnumSource(CrossTools.class)
  void edges_sayWhatIsCalledAndWhatIsNamed(CrossTools tools) throws IOException {
    tools.require();
    Map<String, Symbol> symbols = byName(ObjectFile.read(worker(tools)));
    Symbol weigh = symbols.get("weigh");
    assertEquals(
        List.of("other", "first", "steps", "window"),
        weigh.edges().stream().map(Edge::target).sorted(MachineObjectTest::callsFirst).toList());
    Edge call = weigh.edges().get(0);
    assertEquals(Edge.Type.CALL, call.type());
    assertEquals(weigh.ownStack(), call.depth());
    assertEquals(Kind.BSS, symbols.get("window").kind());
    assertEquals(Kind.DATA, symbols.get("first").kind());
    assertEquals(Kind.RODATA, symbols.get("steps").kind());
    assertTrue(symbols.get("first").local() && !symbols.get("window").local());
  }

  /** As many places as the tool shows relocations that allow it. */
  @ParameterizedTest
  @EnumSource(CrossTools.class)
  void sites_areWhereTheLinkerMayShorten(CrossTools tools) throws IOException {
    tools.require();
    ObjectFile object = ObjectFile.read(worker(tools));
    long shown =
        tools
            .output(folder, "objdump", "-r", "worker.o")
            .lines()
            .filter(line -> line.matches(".*R_RISCV_(CALL|CALL_PLT|HI20) .*"))
            .count();
    long found =
        object.symbols().stream()
            .flatMap(symbol -> symbol.edges().stream())
            .mapToLong(edge -> edge.sites().size())
            .sum();
    assertEquals(shown, found);
    assertEquals(tools.isArm(), shown == 0);
  }

  @ParameterizedTest
  @EnumSource(CrossTools.class)
  void linkedProgram_isRefused(CrossTools tools) throws IOException {
    tools.require();
    Path start = tools.compile(folder, "start.c", PortableSnippets.START, "-Os");
    Path main = tools.compile(folder, "main.c", PortableSnippets.MAIN, "-Os");
    Path frames = tools.compile(folder, "frames.c", PortableSnippets.FRAMES, "-Os");
    Path program = tools.link(folder, List.of(start, main, frames));
    assertThrows(InputException.class, () -> ObjectFile.read(program));
  }

  private Path worker(CrossTools tools) {
    return tools.compile(
        folder,
        "worker.c",
        WORKER,
        "-Os",
        "-ffunction-sections",
        "-fdata-sections",
        tools.isArm() ? "-fno-section-anchors" : "-msmall-data-limit=0");
  }

  private static int callsFirst(String one, String other) {
    boolean first = one.equals("other");
    return first == other.equals("other") ? one.compareTo(other) : first ? -1 : 1;
  }

  private static Map<String, Symbol> byName(ObjectFile file) {
    return file.symbols().stream()
        .collect(Collectors.toMap(Symbol::name, Function.identity(), (a, b) -> a, TreeMap::new));
  }
}
