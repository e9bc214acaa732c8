package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What a user does in an emitted folder works there, without a warning. */
class EmittedFolderTest {
  private static final String HOSTILE =
      """
      loop: "*/ #error $(shell touch broken) ??/ \\\\ <b> [x](http://x) `touch broken`"
      sensor:
        bus: i2c
        address: 0x4D
        frame: {sample_bytes: 2, signed: false}
        scale: {gain: 0.1, offset: 0, unit: "*/ $(x) #"}
      alarm: {when: above, threshold: 50}
      """;

  private static final Path SAMPLES = Path.of("generated-samples");
  private static final int FEWEST_FOLDERS = 15;

  /** What the README of a sample says the knob is set to. */
  private static final Map<String, String> LIMITS = Map.of("bee-hive", "36", "cold-store", "8");

  @TempDir private Path folder;

  static List<Path> goldenFolders() throws IOException {
    try (Stream<Path> files = Files.walk(SAMPLES)) {
      List<Path> folders =
          files.filter(file -> file.endsWith(Manifest.FILE)).map(Path::getParent).sorted().toList();
      assertTrue(folders.size() >= FEWEST_FOLDERS, folders.toString());
      return folders;
    }
  }

  @ParameterizedTest
  @MethodSource("goldenFolders")
  void everyMakeTarget_works(Path golden) throws IOException {
    Tool.require("avr-gcc", "avr-size", "cc", "make");
    Emitted emitted = Emitted.copy(golden, folder);
    emitted.make("all");
    for (String built : List.of("firmware.elf", "firmware.hex", "firmware.map", "src/main.su")) {
      assertTrue(Files.exists(emitted.file("build/" + built)), built);
    }
    String size = emitted.make("size");
    int flash = flash(size);
    assertAsEstimated(golden, flash, ram(size));
    // A start-up of the port's own has to stay a unit of its own.
    if (!Files.exists(emitted.file("port/start.c"))) {
      int small = flash(emitted.make("small"));
      assertTrue(small < flash, small + " is not below " + flash);
    }
    assertEquals(8, emitted.make("check").split("all as expected", -1).length - 1);
    playTrace(emitted, golden);
  }

  /** Flash inside the interval of the manifest, static RAM to the byte. */
  private static void assertAsEstimated(Path golden, int flash, int ram) throws IOException {
    byte[] manifest = Files.readAllBytes(golden.resolve(Manifest.FILE));
    Origin.Figures estimate = ManifestReader.read(Manifest.FILE, manifest).origin().estimate();
    assertTrue(
        estimate.flashLow() <= flash && flash <= estimate.flashHigh(),
        () -> flash + " bytes of flash, but " + estimate);
    assertEquals(estimate.ramStatic(), ram, estimate.toString());
  }

  /** On and off again; a latched alarm stays on. */
  private static void playTrace(Emitted emitted, Path golden) {
    String sample = golden.getParent().getFileName().toString();
    Path trace = golden.resolveSibling("trace.csv").toAbsolutePath();
    String limit = "LIMIT=" + LIMITS.getOrDefault(sample, "");
    List<String> played = emitted.make("-s", "play", "TRACE=" + trace, limit).lines().toList();
    assertEquals("reading,time_ms,alarm", played.get(0));
    assertTrue(played.get(1).endsWith(",1"), played.toString());
    assertEquals(sample.equals("bilge") ? 2 : 3, played.size(), played.toString());
  }

  @Test
  void hostileName_breaksOutOfNothing() {
    Tool.require("avr-gcc", "cc", "make");
    Emitted emitted = Emitted.to(folder, HOSTILE, "attiny85");
    emitted.make("all", "check");
    assertFalse(Files.exists(emitted.file("broken")));
    assertFalse(emitted.text("README.md").contains("<b>"));
    assertFalse(emitted.text("README.md").contains("[x]("));
  }

  @Test
  void flashWithoutAProgrammer_saysWhatToDo() {
    Tool.require("avr-gcc", "make");
    Tool.Run run = Emitted.to(folder, HOSTILE, "attiny85").tryMake("flash");
    assertNotEquals(0, run.exit());
    assertTrue(run.output().contains("make flash PROGRAMMER=name"), run.output());
  }

  @Test
  void flashWithAProgrammer_handsTheFirmwareToTheTool() {
    Tool.require("avr-gcc", "make", "echo");
    String said =
        Emitted.to(folder, HOSTILE, "attiny85")
            .make("-s", "flash", "PROGRAMMER=usbasp", "PORT=usb", "FLASH_TOOL=echo");
    assertEquals("-p attiny85 -c usbasp -P usb -U flash:w:build/firmware.hex:i", said.strip());
  }

  @Test
  void firmwareThatIsTooLarge_failsTheSizeCheck() {
    Tool.require("avr-gcc", "avr-size", "make");
    Tool.Run run = Emitted.to(folder, HOSTILE, "attiny85").tryMake("size", "FLASH_BYTES=100");
    assertNotEquals(0, run.exit());
  }

  /** Its wake-up handler is written by hand, of which the compiler cannot tell the stack. */
  @Test
  void deepSleep_buildsWithoutAWarning() {
    Tool.require("avr-gcc", "make");
    String sleeping = HOSTILE + "extras: {sleep: deep}\nboard: {supply_v: 3}\n";
    Emitted.to(folder, sleeping, "attiny85").make("all");
    assertTrue(Files.exists(folder.resolve("build/firmware.elf")));
  }

  @Test
  void ownSources_areCompiledAlong() {
    Tool.require("avr-gcc", "make");
    Emitted emitted = Emitted.to(folder, HOSTILE, "attiny85");
    Folder.write(folder, "yours/extra.c", "int yours_extra;\n");
    emitted.make("all");
    assertTrue(Files.exists(emitted.file("build/yours/extra.o")));
  }

  @Test
  void makefile_hasTheFlagsThatEverythingIsMeasuredWith() {
    String makefile = Emitted.to(folder, HOSTILE, "attiny85").text("Makefile");
    assertTrue(makefile.contains("\nCFLAGS := " + String.join(" ", Toolchain.FLAGS) + "\n"));
  }

  private static int ram(String size) {
    return Integer.parseInt(size.replaceAll("(?s).*static RAM (\\d+) of.*", "$1"));
  }

  private static int flash(String size) {
    return Integer.parseInt(size.replaceAll("(?s).*flash (\\d+) of.*", "$1"));
  }
}
