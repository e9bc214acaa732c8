package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.calibrate.CrossCompiler;
import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Module;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.LoopReader;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.ObjectFile;
import dev.ullage.measure.StackPath;
import dev.ullage.measure.Symbol;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.CostWriter;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * A program that writes the flash chip which it is read from: what does so is copied to RAM, counts
 * there and in flash, and leads to nothing in flash (RP2040 data sheet, 2.6.3: nothing can be read
 * from the chip while it obeys commands).
 */
class RamCodeTest {
  private static final Target PART = Catalogue.load().target("rp2040-512k").orElseThrow();
  private static final String LOOP =
      """
      loop: seed cupboard
      period_ms: 2000
      sensor: {address: 0x48, frame: {sample_bytes: BYTES}}
      alarm: {threshold: 30}
      outputs: {lamp: {}}
      extras: {settings: true, sleep: idle, report: {baud: 9600, send: average}}
      bus_driver: buffered
      """;
  private static final String HOOKS =
      """
      #include "../src/settings.h"
      #define YOURS_BEGIN() settings_keep(1)
      #define YOURS_EACH_READING(alarm) ((void)(alarm))
      """;
  private static final String FILLING =
      """
      #include "../src/settings.h"
      static const uint8_t yours_filling[%d] = {1};
      #define YOURS_BEGIN() settings_keep(yours_filling[settings_trip & 1])
      #define YOURS_EACH_READING(alarm) ((void)(alarm))
      """;
  private static final Path TABLES = Path.of("targets/costs");

  @TempDir private Path folder;

  @BeforeEach
  void requireTools() {
    Tool.require("arm-none-eabi-gcc");
    Tool.require("arm-none-eabi-objcopy");
  }

  private Firmware build(int sampleBytes) throws IOException {
    return build(sampleBytes, HOOKS);
  }

  private Firmware build(int sampleBytes, String hooks) throws IOException {
    String loop = LOOP.replace("BYTES", String.valueOf(sampleBytes));
    Plan plan = Plan.of(LoopReader.read("test.yaml", loop), PART);
    Firmware firmware = ((Plan.Possible) plan).firmware();
    FirmwareBuild.build(firmware, Map.of("yours/hooks.h", hooks), folder);
    return firmware;
  }

  private LinkedProgram program() throws IOException {
    return LinkedProgram.read(folder.resolve("firmware.elf"));
  }

  /** The tables, but for `main`, which leads to what they know of settings. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3})
  void estimate_isWhatTheLinkerMakes(int sampleBytes) throws IOException {
    Firmware firmware = build(sampleBytes);
    LinkedProgram program = program();

    Estimate estimate =
        new Sizing(CostTables.of(tables(firmware)))
            .estimate(PART, firmware.modules(), firmware.buffers());

    assertEquals(program.flashBytes(), estimate.flash().likely());
    assertEquals(program.staticRamBytes(), estimate.staticRam());
    assertEquals(program.stack().bytes(), estimate.stack());
  }

  private Map<String, String> tables(Firmware firmware) throws IOException {
    Module main = firmware.modules().stream().filter(m -> m.name().equals("main")).findAny().get();
    CostWriter writer = new CostWriter("gcc", CrossCompiler.FLAGS);
    try (Stream<Path> files = Files.list(TABLES)) {
      for (Path each : files.filter(f -> !f.toString().contains("avr")).toList()) {
        String name = String.valueOf(each.getFileName());
        writer.keep(name, Files.readString(each), key -> !key.equals(main.key()));
      }
    }
    ObjectFile object = ObjectFile.read(folder.resolve("main.o"));
    writer.add(PART.family().name(), PART.codeClass(), main, object, Map.of());
    return writer.files();
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3})
  void stack_isFollowedThroughRam(int sampleBytes) throws IOException {
    build(sampleBytes);
    LinkedProgram program = program();

    assertTrue(program.stack().unbounded().isEmpty(), program.stack().unbounded().toString());
    List<String> path = program.stack().main().stream().map(StackPath.Step::function).toList();
    assertTrue(
        path.containsAll(List.of("settings_keep", "write", "change", "command")), path::toString);
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3})
  void codeInRam_leadsToNothingInFlash(int sampleBytes) throws IOException {
    build(sampleBytes);
    Tool.output(
        folder,
        "arm-none-eabi-objcopy",
        "-O",
        "binary",
        "-j",
        ".ramcode",
        "firmware.elf",
        "code.bin");
    ByteBuffer code =
        ByteBuffer.wrap(Files.readAllBytes(folder.resolve("code.bin")))
            .order(ByteOrder.LITTLE_ENDIAN);
    int inRam =
        program().symbols().stream()
            .filter(each -> List.of("change", "command").contains(each.name()))
            .mapToInt(Symbol::bytes)
            .sum();

    assertEquals(inRam, code.remaining());
    assertEquals(inRam, program().dataBytes());
    while (code.hasRemaining()) {
      int word = code.getInt();
      assertTrue(word >>> 24 < 0x10 || word >>> 24 > 0x13, () -> Integer.toHexString(word));
    }
  }

  /** Into the last word that there is, and a word more. */
  @Test
  void programThatReachesTheSettings_isNotLinked() throws IOException {
    build(2, FILLING.formatted(4000));
    int room = 4000 + PART.flashBytes() - program().flashBytes();

    build(2, FILLING.formatted(room));
    assertEquals(PART.flashBytes(), program().flashBytes());
    AssertionError refusal =
        assertThrows(AssertionError.class, () -> build(2, FILLING.formatted(room + 4)));
    assertTrue(refusal.getMessage().contains("overflowed by 4 bytes"), refusal::getMessage);
  }
}
