package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LinkedProgramTest {
  @TempDir Path folder;

  @BeforeEach
  void needsCompiler() {
    Toolchain.avr();
  }

  @ParameterizedTest
  @ValueSource(strings = {"attiny24", "attiny85", "atmega8a", "atmega328p", "atmega2560"})
  void program_hasTheSectionsThatTheSizeToolPrints(String part) throws IOException {
    Path elf = program(part);
    Map<String, Integer> sizes = new HashMap<>();
    for (String line :
        Toolchain.run(List.of("avr-size", "-A", elf.toString()), folder).split("\n")) {
      String[] words = line.strip().split(" +");
      if (words.length == 3 && words[0].startsWith(".")) {
        sizes.put(words[0], Integer.parseInt(words[1]));
      }
    }
    LinkedProgram program = LinkedProgram.read(elf);
    assertEquals(sizes.get(".text") + sizes.get(".data"), program.flashBytes());
    assertEquals(sizes.get(".data"), program.dataBytes());
    assertEquals(sizes.get(".data") + sizes.get(".bss"), program.staticRamBytes());
    assertEquals(sizes.getOrDefault(".eeprom", 0), program.eepromBytes());
  }

  /** F-093: sizes of the empty program with avr-gcc 5.4.0 of Debian 12. */
  @ParameterizedTest
  @CsvSource({"atmega328p, 134, 2", "attiny85, 54, 2", "atmega2560, 262, 3"})
  void emptyProgram_isVectorsAndStartUp(String part, int flash, int returnAddress)
      throws IOException {
    Path object = Toolchain.compile(part, "empty.c", "int main(void) { for (;;) {} }\n", folder);
    LinkedProgram program = LinkedProgram.read(Toolchain.link(part, List.of(object), folder));
    assertEquals(flash, program.flashBytes());
    assertEquals(0, program.staticRamBytes());
    // Only the return address of the call to main.
    assertEquals(returnAddress, program.stack().bytes());
    assertEquals(Optional.empty(), program.stack().unbounded());
  }

  @ParameterizedTest
  @ValueSource(strings = {"attiny24", "attiny85", "atmega8a", "atmega328p", "atmega2560"})
  void walkOverTheProgram_agreesWithTheWalkOverItsObjectFiles(String part) throws IOException {
    LinkedProgram program = LinkedProgram.read(program(part));
    Collection<Symbol> objects = reachable(part, List.of("worker.o", "main.o"));
    StackBound fromObjects = StackBound.of(objects, program.returnAddressBytes(), Set.of());
    assertEquals(Optional.empty(), program.stack().unbounded());
    assertEquals(fromObjects, program.stack());
    assertTrue(program.stack().main().size() > 1 && program.stack().interrupt().size() > 1);
    int sum =
        program.stack().main().stream().mapToInt(StackPath.Step::bytes).sum()
            + program.stack().interrupt().stream().mapToInt(StackPath.Step::bytes).sum();
    assertEquals(program.stack().bytes(), sum);
  }

  @ParameterizedTest
  @ValueSource(strings = {"attiny24", "attiny85", "atmega8a", "atmega328p", "atmega2560"})
  void symbolsOfTheProgram_areThoseOfItsObjectFilesByteForByte(String part) throws IOException {
    LinkedProgram program = LinkedProgram.read(program(part));
    int compared = 0;
    for (Symbol each : reachable(part, List.of("worker.o", "main.o"))) {
      if (each.bytes() > 0 && !each.name().startsWith(".")) {
        assertEquals(
            Optional.of(each.bytes()), program.symbol(each.name()).map(Symbol::bytes), each.name());
        compared++;
      }
    }
    assertTrue(compared > 18, "compared " + compared);
  }

  @Test
  void recursion_isReportedWithItsName() throws IOException {
    String source =
        """
        volatile unsigned char n;
        int down(int a) { return a > n ? down(a - n) + n : a; }
        int main(void) { for (;;) n += down(200); }
        """;
    assertEquals(Optional.of("down calls itself"), unbounded("recursive.c", source));
  }

  @Test
  void callThroughAPointer_isReportedWithItsPlace() throws IOException {
    String source =
        """
        int (*volatile hook)(int);
        int main(void) { for (;;) hook(hook(1)); }
        """;
    String reason = unbounded("pointer.c", source).orElse("bounded");
    assertTrue(reason.startsWith("main calls a computed address at main+0x"), reason);
  }

  @Test
  void handlerThatLetsInterruptsIn_isReported() throws IOException {
    String source =
        """
        #include <avr/interrupt.h>
        volatile unsigned char n;
        ISR(TIMER0_COMPA_vect, ISR_NOBLOCK) { n++; }
        int main(void) { for (;;) {} }
        """;
    assertEquals(
        Optional.of("__vector_10 lets other interrupts in"), unbounded("nested.c", source));
  }

  @Test
  void ownDefaultHandler_countsAsAnInterrupt() throws IOException {
    String source =
        """
        #include <avr/interrupt.h>
        volatile unsigned char n;
        ISR(BADISR_vect) { n++; }
        int main(void) { for (;;) {} }
        """;
    Path object = Toolchain.compile("attiny85", "own.c", source, folder);
    StackBound stack =
        LinkedProgram.read(Toolchain.link("attiny85", List.of(object), folder)).stack();
    // Return address, r0, r1, the status register and r24.
    assertEquals(2 + 2 + 4, stack.bytes());
  }

  @Test
  void handWrittenHandler_isReadFromItsInstructions() throws IOException {
    String source =
        """
        #include <avr/interrupt.h>
        volatile unsigned char n;
        ISR(TIMER0_COMPA_vect, ISR_NAKED) {
          __asm__ volatile("push r16\\n push r17\\n rcall 1f\\n pop r17\\n pop r16\\n reti\\n"
                           "1: push r18\\n pop r18\\n ret");
        }
        int main(void) { for (;;) {} }
        """;
    Path object = Toolchain.compile("attiny85", "naked.c", source, folder);
    StackBound stack =
        LinkedProgram.read(Toolchain.link("attiny85", List.of(object), folder)).stack();
    // Call to main; interrupt, two registers, inner call, one register.
    assertEquals(2 + 2 + 2 + 2 + 1, stack.bytes());
    assertEquals(Optional.empty(), stack.unbounded());
  }

  private Optional<String> unbounded(String name, String source) throws IOException {
    Path object = Toolchain.compile("attiny85", name, source, folder);
    return LinkedProgram.read(Toolchain.link("attiny85", List.of(object), folder))
        .stack()
        .unbounded();
  }

  private Path program(String part) {
    Path worker = Toolchain.compile(part, "worker.c", ObjectFileTest.worker(part), folder);
    Path main = Toolchain.compile(part, "main.c", Snippets.MAIN, folder);
    return Toolchain.link(part, List.of(worker, main), folder);
  }

  /** What the linker keeps of object files and helpers, by following the edges. */
  private Collection<Symbol> reachable(String part, List<String> objects) throws IOException {
    List<ObjectFile> files = new ArrayList<>();
    for (String object : objects) {
      files.add(ObjectFile.read(folder.resolve(object)));
    }
    files.addAll(Archive.read(Toolchain.avrHelpers(part, folder)));
    Map<String, Symbol> all = new HashMap<>();
    files.forEach(file -> file.symbols().forEach(each -> all.putIfAbsent(each.name(), each)));
    Deque<String> work = new ArrayDeque<>(List.of("main"));
    all.keySet().stream().filter(StackBound::isHandler).forEach(work::add);
    Map<String, Symbol> kept = new LinkedHashMap<>();
    while (!work.isEmpty()) {
      Symbol symbol = all.get(work.pop());
      if (symbol != null && kept.put(symbol.name(), symbol) == null) {
        symbol.edges().forEach(edge -> work.add(edge.target()));
      }
    }
    return kept.values();
  }
}
