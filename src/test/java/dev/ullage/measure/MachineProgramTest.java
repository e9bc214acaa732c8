package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Programs for Cortex-M and RISC-V, held against the compiler and the binutils. */
class MachineProgramTest {
  @TempDir Path folder;

  static Stream<Arguments> coresAndOptions() {
    return Stream.of(CrossTools.values())
        .flatMap(
            tools ->
                Stream.of("-O0", "-Os", "-O2")
                    .flatMap(
                        level ->
                            tools.isArm()
                                ? Stream.of(List.of(level))
                                : Stream.of(List.of(level), List.of(level, "-msave-restore")))
                    .map(options -> Arguments.of(tools, options)));
  }

  /** The compiler publishes what each function takes: {@code -fstack-usage}. */
  @ParameterizedTest
  @MethodSource("coresAndOptions")
  void ownStack_isWhatTheCompilerSays(CrossTools tools, List<String> options) throws IOException {
    tools.require();
    String[] flags = options.toArray(String[]::new);
    LinkedProgram program = LinkedProgram.read(program(tools, flags));
    int compared = 0;
    List<String> differences = new ArrayList<>();
    for (String unit : List.of("frames", "main", "start")) {
      for (String line : Files.readAllLines(folder.resolve(unit + ".su"))) {
        String[] fields = line.split("\t");
        String name = fields[0].substring(fields[0].lastIndexOf(':') + 1);
        if (fields[2].equals("static")) {
          Symbol symbol = program.symbol(name).orElseThrow();
          int expected = Integer.parseInt(fields[1]) + argumentRegisters(tools, name);
          int found = options.contains("-msave-restore") ? atCalls(symbol) : symbol.ownStack();
          if (found >= 0 && found != expected || symbol.unbounded().isPresent()) {
            differences.add(line + " but " + symbol);
          }
          compared++;
        }
      }
    }
    assertEquals(List.of(), differences);
    assertTrue(compared > 20, "compared " + compared);
    assertEquals(Optional.empty(), program.stack().unbounded());
  }

  /** What the compiler leaves out: registers with arguments that {@code va_arg} walks over. */
  private static int argumentRegisters(CrossTools tools, String name) {
    return tools.isArm() && name.equals("sum") ? 4 * 4 : 0;
  }

  /** Routines that save registers for others hold more for a moment than stays; -1: no calls. */
  private static int atCalls(Symbol symbol) {
    return symbol.edges().stream()
        .filter(edge -> edge.type() == Symbol.Edge.Type.CALL)
        .mapToInt(Symbol.Edge::depth)
        .max()
        .orElse(-1);
  }

  @ParameterizedTest
  @EnumSource(CrossTools.class)
  void figures_areThoseOfSizeAndNm(CrossTools tools) throws IOException {
    tools.require();
    for (Path file :
        List.of(program(tools, "-Os"), tools.program(folder, PortableSnippets.LIBRARY, "-O2"))) {
      LinkedProgram program = LinkedProgram.read(file);
      String[] sizes =
          tools.output(folder, "size", file.toString()).split("\n")[1].strip().split("\\s+");
      int text = Integer.parseInt(sizes[0]);
      int data = Integer.parseInt(sizes[1]);
      assertEquals(text + data, program.flashBytes());
      assertEquals(data, program.dataBytes());
      assertEquals(data + Integer.parseInt(sizes[2]), program.staticRamBytes());
      assertEquals(sizesByName(tools, file), sizesByName(program, sizesByName(tools, file)));
    }
  }

  /** By name; where the tool's figure reaches over what starts in between, ours ends there. */
  private Map<String, Integer> sizesByName(CrossTools tools, Path file) {
    Map<String, Integer> sizes = new TreeMap<>();
    Map<String, Long> addresses = new TreeMap<>();
    TreeSet<Long> starts = new TreeSet<>();
    for (String line : tools.output(folder, "nm", "-S", file.toString()).split("\n")) {
      String[] words = line.strip().split(" +");
      boolean global = words.length > 2 && "TDBRWV".contains(words[words.length - 2]);
      if (global || words.length == 4) {
        starts.add(Long.parseLong(words[0], 16));
      }
      // Thread-local names have no address: they count from the start of their block.
      boolean placed = !words[0].matches("0+");
      if (words.length == 4 && placed && "TDBR".contains(words[2])) {
        sizes.put(words[3], Integer.parseInt(words[1], 16));
        addresses.put(words[3], Long.parseLong(words[0], 16));
      }
    }
    assertTrue(sizes.size() > 15, sizes.size() + " names");
    sizes.replaceAll(
        (name, size) -> {
          Long next = starts.higher(addresses.get(name));
          return next == null ? size : (int) Math.min(size, next - addresses.get(name));
        });
    return sizes;
  }

  /** Second names of a place have no size of their own. */
  private static Map<String, Integer> sizesByName(LinkedProgram program, Map<String, Integer> of) {
    Map<String, Integer> sizes = new TreeMap<>();
    for (Symbol each : program.symbols()) {
      if (of.containsKey(each.name())) {
        boolean second = each.bytes() == 0 && each.edges().size() == 1;
        sizes.put(each.name(), second ? of.get(each.name()) : Integer.valueOf(each.bytes()));
      }
    }
    return sizes;
  }

  private Path program(CrossTools tools, String... options) {
    return tools.link(
        folder,
        List.of(
            tools.compile(folder, "frames.c", PortableSnippets.FRAMES, options),
            tools.compile(folder, "main.c", PortableSnippets.MAIN, options),
            tools.compile(folder, "start.c", PortableSnippets.START, options)),
        options);
  }
}
