package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import dev.ullage.measure.Archive;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.ObjectFile;
import dev.ullage.measure.StackPath;
import dev.ullage.sizing.Estimate.Grade;
import dev.ullage.target.Target;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Measures modules one by one, estimates a program of them, and lets the linker judge. */
class LinkerTest {
  private static final String MAIN =
      """
      #include <avr/interrupt.h>
      #include <stdint.h>
      void ask(void);
      int16_t average_add(int16_t value);
      volatile int16_t shown;
      int main(void) {
        sei();
        for (;;) {
          ask();
          shown = average_add(shown) / (int16_t) (shown + 3);
        }
      }
      """;

  private static final String ASK =
      """
      #include <stdint.h>
      void bus_write(uint8_t byte);
      static void rest(void) { __asm__ volatile("nop"); }
      void ask(void) {
        rest();
        for (uint8_t i = 0; i < 2; i++) BYTES
      }
      """;

  private static final String AVERAGE =
      """
      #include <stdint.h>
      #include <avr/pgmspace.h>
      int16_t average_window[SIZE];
      static uint8_t place;
      static uint8_t first = 7;
      const uint8_t weights[3] PROGMEM = {1, 4, 2};
      static __attribute__((noinline)) int16_t rest(int16_t value) { return value * first; }
      int16_t average_add(int16_t value) {
        average_window[place] = rest(value);
        if (++place == SIZE) place = 0;
        return value - average_window[place] * pgm_read_byte(&weights[place % 3]);
      }
      int32_t average_unused(int32_t value) { return value / 10; }
      """;

  private static final String BUS =
      """
      #include <avr/io.h>
      #include <avr/interrupt.h>
      uint8_t bus_sent[SIZE];
      volatile uint8_t bus_count;
      void early(void) __attribute__((naked, used, section(".init3")));
      void early(void) { __asm__ volatile("nop"); }
      void bus_write(uint8_t byte) {
        bus_sent[bus_count] = byte;
        if (bus_count < SIZE - 1) bus_count++;
      }
      static void serve(uint8_t byte) { if (byte) bus_count--; }
      ISR(VECTOR) { serve(bus_sent[bus_count] * 3); }
      """;

  @TempDir Path folder;

  @BeforeEach
  void needsCompiler() {
    Toolchain.avr();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"attiny13a", "attiny25", "attiny85", "atmega8a", "atmega328p", "atmega2560"})
  void freshProgram_hasTheFlashRamAndStackOfTheEstimate(String part) throws IOException {
    Target target = Tables.target(part);
    CostTables tables = CostTables.of(measured(target));
    List<Module> modules =
        List.of(
            Tables.portable("main[]"), ask(5), Tables.portable("average[]"), Tables.port("bus[]"));
    List<Buffer> buffers =
        List.of(
            new Buffer("window", "average", "average_window", 2 * 9),
            new Buffer("send", "bus", "bus_sent", 11));
    Estimate estimate = new Sizing(tables).estimate(target, modules, buffers);
    LinkedProgram program =
        LinkedProgram.read(
            Toolchain.link(
                part,
                List.of(
                    compile(part, "main", MAIN),
                    compile(part, "ask", asking(5)),
                    compile(part, "average", AVERAGE.replace("SIZE", "9")),
                    compile(part, "bus", bus(part, 11))),
                folder));
    assertEquals(Grade.MEASURED, estimate.grade());
    assertEquals(program.flashBytes(), estimate.flash().likely());
    assertEquals(program.staticRamBytes(), estimate.staticRam());
    assertEquals(program.stack().bytes(), estimate.stack());
    List<String> path =
        Stream.concat(program.stack().main().stream(), program.stack().interrupt().stream())
            .map(StackPath.Step::function)
            .toList();
    assertEquals(path, estimate.stackPath().stream().map(Estimate.Step::function).toList());
  }

  /** Tables of other buffer sizes and another count than the program has. */
  private Map<String, String> measured(Target target) throws IOException {
    String part = target.name();
    String family = target.family().name();
    String codeClass = target.codeClass();
    CostWriter writer = new CostWriter("avr-gcc", Toolchain.FLAGS);
    writer.add(family, codeClass, Tables.portable("main[]"), read(part, "main", MAIN), Map.of());
    writer.add(
        family,
        codeClass,
        ask(2),
        read(part, "ask", asking(2)),
        Map.of("ask", read(part, "ask", asking(3))));
    writer.add(
        family,
        codeClass,
        Tables.portable("average[]"),
        read(part, "average", AVERAGE.replace("SIZE", "4")),
        Map.of());
    writer.add(family, codeClass, Tables.port("bus[]"), read(part, "bus", bus(part, 5)), Map.of());
    writer.addHelpers(codeClass, Archive.read(Toolchain.avrHelpers(part, folder)));
    Path empty = compile(part, "empty", "int main(void) { for (;;) {} }\n");
    writer.addStartUp(target, LinkedProgram.read(Toolchain.link(part, List.of(empty), folder)));
    return writer.files();
  }

  private static Module ask(int bytes) {
    return Tables.module("ask[]", Module.Scope.PORTABLE, Map.of("ask", bytes));
  }

  private static String asking(int bytes) {
    return ASK.replace("BYTES", "{ " + "bus_write(0x5A); ".repeat(bytes) + "}");
  }

  private static String bus(String part, int size) {
    String vector =
        switch (part) {
          case "atmega8a" -> "TIMER2_COMP_vect";
          case "attiny13a" -> "TIM0_COMPA_vect";
          default -> "TIMER0_COMPA_vect";
        };
    return BUS.replace("SIZE", String.valueOf(size)).replace("VECTOR", vector);
  }

  private ObjectFile read(String part, String name, String source) throws IOException {
    return ObjectFile.read(compile(part, name, source));
  }

  private Path compile(String part, String name, String source) {
    return Toolchain.compile(part, name + ".c", source, folder);
  }
}
