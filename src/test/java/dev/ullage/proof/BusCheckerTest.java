package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A master that breaks one rule of the bus at a time is caught each time, and only then. */
class BusCheckerTest {
  private static final Path MASTER = Path.of("src/test/c/bad_master/master.c");
  private static final String PART = "attiny85";
  private static final int CLOCK_HZ = 16_000_000;
  private static final int STRETCH_NS = 40_000;

  @TempDir static Path folder;
  private static SimulatedBoard board;

  @BeforeAll
  static void build() {
    board = new SimulatedBoard(folder);
  }

  @Test
  void masterThatKeepsTheRules_isNotBlamed() throws IOException {
    assertEquals(List.of(), broken());
  }

  @ParameterizedTest
  @CsvSource({
    "LOW=3, tLOW",
    "HIGH=2, tHIGH",
    "START_HOLD=2, tHD;STA",
    "START_SET_UP=2, tSU;STA",
    "STOP_SET_UP=2, tSU;STO",
    "FREE=1, tBUF",
    "LATE_DATA, tSU;DAT",
    "HIGH=1, period",
    "NO_STOP, missing STOP",
    "MOVE_DATA=0x10, START within a byte",
    "MOVE_DATA=0x08, STOP within a byte",
    "NOTHING_BETWEEN, START and STOP with nothing between",
    "PUSH_PULL_SDA, SDA is driven high",
    "PUSH_PULL_SCL, SCL is driven high",
    "IGNORE_STRETCHING, clock stretching is ignored"
  })
  void masterThatBreaksARule_isCaught(String how, String rule) throws IOException {
    List<String> broken = broken("-D" + how);
    assertTrue(broken.stream().anyMatch(line -> line.contains(rule)), () -> "found: " + broken);
  }

  private static List<String> broken(String... options) throws IOException {
    Path elf = Files.createTempFile(folder, "master", ".elf");
    List<String> command = new ArrayList<>(List.of("avr-gcc", "-mmcu=" + PART, "-Os", "-std=c99"));
    command.addAll(List.of(options));
    command.addAll(List.of(MASTER.toAbsolutePath().toString(), "-o", elf.toString()));
    Tool.output(folder, command.toArray(String[]::new));
    Script script = new Script().frame(0x12, 0x34).stretch(STRETCH_NS).frame(0xA5, 0xC3);
    List<String> wires = List.of("sda=B1", "scl=B2", "address=0x48", "valid=3450", "gap=10");
    return BusRules.STANDARD.broken(board.run(elf, PART, CLOCK_HZ, wires, script));
  }
}
