package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.LoopReader;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.StackPath;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What the boot ROM of an LPC800 part asks of a program, and what its routine for the flash takes:
 * UM10601 Rev. 1.6, 21.6.2, 22.5.2 and 22.6.2.
 */
class BootSumTest {
  private static final Target PART = Catalogue.load().target("lpc812m101").orElseThrow();
  private static final int RAM_END = 0x10001000;
  private static final int BYTES_OF_THE_ROUTINE = 32;
  private static final String LOOP =
      """
      loop: bilge corner
      sensor: {address: 0x48}
      alarm: {threshold: 30}
      outputs: {lamp: {}}
      extras: {settings: true, sleep: idle}
      bus_driver: buffered
      """;

  @TempDir private Path folder;

  @BeforeEach
  void requireTools() {
    Tool.require("arm-none-eabi-gcc");
  }

  private static Firmware firmware() {
    Plan plan = Plan.of(LoopReader.read("test.yaml", LOOP), PART);
    return ((Plan.Possible) plan).firmware();
  }

  /** The first words of the program, which lies at address 0. */
  private static int[] vectors(Path elf) throws IOException {
    ByteBuffer bytes = ByteBuffer.wrap(Files.readAllBytes(elf)).order(ByteOrder.LITTLE_ENDIAN);
    int firstSegment = bytes.getInt(28);
    assertEquals(0, bytes.getInt(firstSegment + 12), "its address");
    int[] words = new int[8];
    bytes
        .position(bytes.getInt(firstSegment + 4))
        .slice()
        .order(ByteOrder.LITTLE_ENDIAN)
        .asIntBuffer()
        .get(words);
    return words;
  }

  private static int sum(int[] words) {
    int sum = 0;
    for (int word : words) {
      sum += word;
    }
    return sum;
  }

  @Test
  void firstEightVectors_addUpToZero_andTheOthersAreFollowed() throws IOException {
    Path elf = FirmwareBuild.build(firmware(), Map.of(), folder);
    int[] words = vectors(elf);

    assertEquals(0, sum(words));
    assertTrue(words[7] != 0);
    assertEquals(RAM_END, words[0]);
    assertTrue(
        LinkedProgram.read(elf).stack().interrupt().stream()
            .map(StackPath.Step::function)
            .anyMatch("isr_bus"::equals));
  }

  /** A program that writes the flash leaves the routine its place, and counts its stack. */
  @Test
  void settingsThatAreKept_leaveRoomForTheRoutineInRom() throws IOException {
    String hooks =
        "#include \"../src/settings.h\"\n"
            + "#define YOURS_BEGIN() settings_keep(1)\n"
            + "#define YOURS_EACH_READING(alarm) ((void)(alarm))\n";
    Path elf = FirmwareBuild.build(firmware(), Map.of("yours/hooks.h", hooks), folder);
    int[] words = vectors(elf);
    LinkedProgram program = LinkedProgram.read(elf);

    assertEquals(0, sum(words));
    assertEquals(RAM_END - BYTES_OF_THE_ROUTINE, words[0]);
    assertTrue(program.stack().unbounded().isEmpty(), program.stack().unbounded().toString());
    assertTrue(
        program.stack().main().stream()
            .anyMatch(step -> step.function().equals("rom") && step.bytes() == 148));
  }
}
