package dev.ullage.measure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.measure.Symbol.Edge;
import dev.ullage.measure.Symbol.Kind;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ObjectFileTest {
  @TempDir Path folder;

  @BeforeEach
  void needsCompiler() {
    Toolchain.avr();
  }

  @ParameterizedTest
  @ValueSource(strings = {"attiny25", "attiny85", "atmega8a", "atmega328p", "atmega2560"})
  void compiledSource_hasTheSizesThatTheSymbolListerPrints(String part) throws IOException {
    Path object = Toolchain.compile(part, "worker.c", worker(part), folder);
    Map<String, Integer> ours = new TreeMap<>();
    for (Symbol each : ObjectFile.read(object).symbols()) {
      ours.put(each.name(), each.bytes());
    }
    Map<String, Integer> theirs = new TreeMap<>();
    for (String line : Toolchain.run(List.of("avr-nm", "-S", "worker.o"), folder).split("\n")) {
      String[] words = line.strip().split(" +");
      if (words.length == 4) {
        theirs.put(words[3], Integer.parseInt(words[1], 16));
      }
    }
    assertEquals(theirs, ours);
    assertEquals(15, ours.size());
  }

  /** The compiler's figure counts the return address; ours does not. F-082: 2 or 3 bytes. */
  @ParameterizedTest
  @ValueSource(
      strings = {"attiny13a", "attiny25", "attiny85", "atmega8a", "atmega328p", "atmega2560"})
  void compiledSource_hasTheStackThatTheCompilerPrints(String part) throws IOException {
    Path object = Toolchain.compile(part, "worker.c", worker(part), folder);
    ObjectFile file = ObjectFile.read(object);
    Map<String, Symbol> symbols = byName(file);
    assertEquals(part.equals("atmega2560") ? 3 : 2, file.returnAddressBytes());
    int compared = 0;
    for (String line : Files.readAllLines(folder.resolve("worker.su"))) {
      String[] fields = line.split("\t");
      String name = fields[0].substring(fields[0].lastIndexOf(':') + 1);
      // What a call pushes as arguments is in neither the compiler's figure nor "static".
      if (fields[2].equals("static")) {
        int expected = Integer.parseInt(fields[1]) - file.returnAddressBytes();
        assertEquals(expected, symbols.get(name).ownStack(), line);
        assertTrue(symbols.get(name).unbounded().isEmpty(), line);
        compared++;
      }
    }
    assertEquals(8, compared);
  }

  @Test
  void compiledSource_knowsWhereItsCallsGoAndHowDeepTheyAre() throws IOException {
    ObjectFile file =
        ObjectFile.read(Toolchain.compile("attiny85", "worker.c", worker("attiny85"), folder));
    Map<String, Symbol> symbols = byName(file);
    assertEquals(List.of(new Edge("other", 0, Edge.Type.TAIL)), symbols.get("hand_over").edges());
    assertEquals(
        List.of(
            new Edge("fill", 74, Edge.Type.CALL),
            new Edge("weigh", 74, Edge.Type.CALL),
            new Edge("seed", 0, Edge.Type.REFERENCE)),
        symbols.get("large_frame").edges());
    assertEquals(List.of(new Edge("fill", 4, Edge.Type.CALL)), symbols.get("small_frame").edges());
    assertEquals(List.of(new Edge("many", 12, Edge.Type.CALL)), symbols.get("call_many").edges());
    assertEquals(12, symbols.get("call_many").ownStack());
  }

  @Test
  void compiledSource_tellsWhichMemoryEachSymbolTakes() throws IOException {
    ObjectFile file =
        ObjectFile.read(Toolchain.compile("attiny85", "worker.c", worker("attiny85"), folder));
    Map<String, Symbol> symbols = byName(file);
    assertEquals(Kind.CODE, symbols.get("divide").kind());
    assertEquals(Kind.BSS, symbols.get("window").kind());
    assertEquals(Kind.DATA, symbols.get("seed").kind());
    assertEquals(Kind.DATA, symbols.get("table").kind());
    assertEquals(Kind.RODATA, symbols.get("steps").kind());
    assertEquals(Kind.EEPROM, symbols.get("kept").kind());
    assertEquals(List.of("__do_clear_bss", "__do_copy_data"), file.needs());
    assertTrue(symbols.get("weigh").local() && !symbols.get("divide").local());
  }

  @Test
  void helperLibrary_givesCallsBetweenHelpers() throws IOException {
    List<ObjectFile> members = Archive.read(Toolchain.avrHelpers("attiny85", folder));
    Map<String, Symbol> symbols =
        members.stream()
            .flatMap(member -> member.symbols().stream())
            .filter(symbol -> !symbol.local())
            .collect(Collectors.toMap(Symbol::name, Function.identity(), (a, b) -> a));
    assertEquals(68, symbols.get("__udivmodsi4").bytes());
    assertEquals(22, symbols.get("__do_copy_data").bytes());
    assertTrue(
        symbols.get("__divmodsi4").edges().contains(new Edge("__udivmodsi4", 0, Edge.Type.CALL)),
        symbols.get("__divmodsi4")::toString);
    assertTrue(
        symbols.get("__mulsi3").edges().contains(new Edge("__mulsi3_helper", 0, Edge.Type.TAIL)),
        symbols.get("__mulsi3")::toString);
  }

  /** Parts differ in the name of the timer's interrupt. */
  static String worker(String part) {
    String vector =
        switch (part) {
          case "atmega8a" -> "TIMER2_COMP_vect";
          case "attiny13a", "attiny24" -> "TIM0_COMPA_vect";
          default -> "TIMER0_COMPA_vect";
        };
    return Snippets.WORKER.replace("TIMER0_COMPA_vect", vector);
  }

  private static Map<String, Symbol> byName(ObjectFile file) {
    return file.symbols().stream().collect(Collectors.toMap(Symbol::name, Function.identity()));
  }
}
