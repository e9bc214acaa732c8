package dev.ullage.fuzz;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Ten thousand damaged files, or as many as {@code -Dullage.fuzz.inputs} says: each is read or
 * refused with findings, in time and in little memory. A file that is not, is kept below {@code
 * target/fuzz}; {@code -Dullage.fuzz.seed} draws others.
 */
class FuzzTest {
  private static final int INPUTS = Integer.getInteger("ullage.fuzz.inputs", 10_000);

  /** Fewer of those that take longer to read. */
  private static final int ARTEFACTS = INPUTS / 10;

  private static final long SEED = Long.getLong("ullage.fuzz.seed", 1);

  private static final String SOURCE =
      """
      #include <stdint.h>
      volatile uint16_t first = 7;
      volatile uint32_t window[9];
      const uint8_t steps[11] = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11};
      static volatile uint8_t hidden = 5;
      __attribute__((noinline)) static uint16_t weigh(uint16_t a) {
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

  @TempDir private Path temp;

  @Test
  void whatPeopleWrite_isReadOrRefused() throws IOException {
    run(temp.resolve("nothing"), INPUTS - ARTEFACTS, 14);
  }

  @Test
  void whatToolchainsLeave_isReadOrRefused() throws IOException {
    Path built = temp.resolve("built");
    build(built, "avr-", "-mmcu=attiny85");
    build(built, "arm-none-eabi-", "-mcpu=cortex-m0", "-mthumb", "--specs=nosys.specs");
    build(
        built,
        "riscv64-unknown-elf-",
        "-march=rv32imac",
        "-mabi=ilp32",
        "--specs=picolibc.specs",
        "--crt0=minimal");
    Path avr = built.resolve("avr");
    Files.createDirectories(built.resolve("hex"));
    Tool.output(avr, "avr-objcopy", "-O", "ihex", "program.elf", "../hex/n.hex");
    Tool.require("sdcc");
    Path sdcc = Files.createDirectories(built.resolve("sdcc"));
    Path scratch = Files.createDirectories(temp.resolve("scratch"));
    Files.writeString(scratch.resolve("n.c"), "int first = 7; void main(void) { first++; }\n");
    Tool.output(scratch, "sdcc", "-mmcs51", "n.c");
    Files.copy(scratch.resolve("n.mem"), sdcc.resolve("n.mem"));
    Files.copy(
        scratch.resolve("n.map"),
        Files.createDirectories(built.resolve("sdcc-map")).resolve("n.map"));
    run(built, ARTEFACTS, 15);
  }

  /** Leaves the program, its map, its object file and what the compiler says of stacks. */
  private static void build(Path built, String prefix, String... machine) throws IOException {
    Tool.require(prefix + "gcc");
    Path folder = Files.createDirectories(built.resolve(prefix.replaceFirst("-.*", "")));
    Files.writeString(folder.resolve("main.c"), SOURCE);
    List<String> gcc =
        new ArrayList<>(List.of(prefix + "gcc", "-Os", "-ffunction-sections", "-fstack-usage"));
    gcc.addAll(Arrays.asList(machine));
    if (!prefix.equals("avr-")) {
      gcc.add("-fcallgraph-info=su");
    }
    List<String> link = new ArrayList<>(gcc);
    gcc.addAll(List.of("-c", "main.c", "-o", "main.o"));
    link.addAll(List.of("main.o", "-Wl,-Map=program.map", "-o", "program.elf"));
    Tool.output(folder, gcc.toArray(String[]::new));
    Tool.output(folder, link.toArray(String[]::new));
    Files.delete(folder.resolve("main.c"));
  }

  /**
   * @param doors how many there are at least
   */
  private void run(Path built, int inputs, int doors) throws IOException {
    List<String> command =
        List.of(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx160m",
            "-Xss512k",
            "-XX:+UseSerialGC",
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            FuzzRun.class.getName(),
            built.toString(),
            temp.resolve("work").toString(),
            Files.createDirectories(Path.of("target", "fuzz")).toString(),
            "" + inputs,
            "" + SEED);
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes());
    assertFalse(said.contains("FAILED"), said);
    List<String> counts = said.lines().toList();
    assertTrue(counts.size() >= doors, said);
    for (String count : counts) {
      assertTrue(count.matches("[^:]+: [0-9]+ taken, [0-9]+ refused, [0-9]+ us each"), said);
      assertFalse(count.contains(" 0 taken") && count.contains(" 0 refused"), said);
    }
    assertEquals(inputs, counts.stream().mapToInt(FuzzTest::sum).sum(), said);
    if (INPUTS > 10_000) {
      System.out.print(said);
    }
  }

  private static int sum(String count) {
    String[] words = count.substring(count.lastIndexOf(':') + 2).split(" ");
    return Integer.parseInt(words[0]) + Integer.parseInt(words[2]);
  }
}
