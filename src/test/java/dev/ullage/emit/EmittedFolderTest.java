package dev.ullage.emit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.LoopReader;
import dev.ullage.testing.Tool;
import dev.ullage.testing.Toolchain;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

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

  @TempDir private Path folder;

  @ParameterizedTest
  @CsvSource({
    "bee-hive, attiny13a",
    "bee-hive, atmega2560",
    "bilge, attiny84",
    "cold-store, attiny85",
    "compost-heap, attiny85",
    "grain-dryer, atmega328p",
  })
  void everyMakeTarget_works(String sample, String target) {
    Tool.require("avr-gcc", "avr-size", "cc", "make");
    Path file = Path.of("generated-samples", sample, sample + ".yaml");
    Emitted emitted = Emitted.to(folder, LoopReader.read(file), target);
    emitted.make("all");
    for (String built : List.of("firmware.elf", "firmware.hex", "firmware.map", "src/main.su")) {
      assertTrue(Files.exists(emitted.file("build/" + built)), built);
    }
    int flash = flash(emitted.make("size"));
    int small = flash(emitted.make("small"));
    assertTrue(small < flash, small + " is not below " + flash);
    assertEquals(8, emitted.make("check").split("all as expected", -1).length - 1);
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

  private static int flash(String size) {
    return Integer.parseInt(size.replaceAll("(?s).*flash (\\d+) of.*", "$1"));
  }
}
