package dev.ullage.audit;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** A small program, built by one of the compilers that may be here. */
enum BuiltProgram {
  AVR("avr-", List.of("-mmcu=atmega328p")),
  ARM("arm-none-eabi-", List.of("-mcpu=cortex-m0", "-mthumb", "--specs=nosys.specs")),
  RISCV(
      "riscv64-unknown-elf-",
      List.of("-march=rv32imac", "-mabi=ilp32", "--specs=picolibc.specs", "--crt0=minimal")),
  HOST("", List.of());

  /** Data of each kind, static and global functions, recursion, a division. */
  static final String SOURCE =
      """
      #include <stdint.h>
      volatile uint16_t first = 7;
      volatile uint32_t window[9];
      const uint8_t steps[11] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};
      static volatile uint8_t hidden = 5;
      __attribute__((noinline)) static uint16_t weigh(uint16_t a) {
        static volatile uint16_t counter;
        counter++;
        return (uint16_t)(a / (first + steps[a % 11]) + hidden);
      }
      __attribute__((noinline)) uint16_t average(uint8_t n) {
        volatile uint8_t room[20];
        room[n] = n;
        return (uint16_t)(weigh(n) + room[n]);
      }
      int main(void) {
        for (;;) {
          window[first % 9] += average((uint8_t)first);
        }
      }
      """;

  private final String prefix;
  private final List<String> machine;

  BuiltProgram(String prefix, List<String> machine) {
    this.prefix = prefix;
    this.machine = machine;
  }

  /** Leaves the test out where the compiler is missing. */
  void require() {
    Tool.require(prefix + "gcc", prefix + "size", prefix + "nm", prefix + "readelf");
  }

  /** One of the tools that come with the compiler. */
  String tool(String name) {
    return prefix + name;
  }

  /** Builds the program with a map; answers where it is. */
  Path build(Path folder, String source, String... more) throws IOException {
    Files.writeString(folder.resolve("main.c"), source);
    List<String> compile = new ArrayList<>(List.of(tool("gcc"), "-Os", "-ffunction-sections"));
    compile.addAll(List.of(more));
    compile.addAll(machine);
    List<String> link = new ArrayList<>(compile);
    compile.addAll(List.of("-c", "main.c", "-o", "main.o"));
    link.addAll(List.of("main.o", "-Wl,-Map=program.map", "-o", "program.elf"));
    Tool.output(folder, compile.toArray(String[]::new));
    Tool.output(folder, link.toArray(String[]::new));
    return folder.resolve("program.elf");
  }
}
