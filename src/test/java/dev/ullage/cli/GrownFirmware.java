package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Emitted firmware, built as it is, and built again with a feature of the user's own. */
final class GrownFirmware {
  static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";

  /** A page counter that divides, so that a library helper comes in. */
  static final String MENU =
      """
      #include "menu.h"
      volatile uint16_t menu_pages[13];
      volatile uint16_t menu_last = 7;
      void menu_step(uint8_t alarm) {
        menu_pages[alarm] += 1;
        menu_last = menu_pages[alarm] / (uint16_t)(alarm + menu_last);
      }
      """;

  private static final String HEADER =
      """
      #ifndef MENU_H
      #define MENU_H
      #include <stdint.h>
      void menu_step(uint8_t alarm);
      #endif
      """;

  private GrownFirmware() {}

  static Run emit(Path folder) {
    return Run.of("emit", SAMPLE, "-t", "attiny85", "-o", folder.toString());
  }

  /** As it was emitted. */
  static void plain(Path folder) {
    Toolchain.avr();
    Tool.require("make");
    emit(folder);
    Tool.output(folder, "make");
  }

  /** With the feature; what it was before is the baseline. */
  static void grown(Path folder) throws IOException {
    plain(folder);
    assertEquals(ExitCode.GOOD, Run.of("audit", folder.toString(), "--accept").code());
    addFeature(folder);
    Tool.output(folder, "make");
  }

  private static void addFeature(Path folder) throws IOException {
    Path hooks = folder.resolve("yours/hooks.h");
    Files.writeString(folder.resolve("yours/menu.c"), MENU);
    Files.writeString(folder.resolve("yours/menu.h"), HEADER);
    String call = "YOURS_EACH_READING(alarm) ";
    String changed =
        Files.readString(hooks)
            .replace("#define HOOKS_H", "#define HOOKS_H\n#include \"menu.h\"")
            .replace(call + "((void)(alarm))", call + "menu_step(alarm)");
    assertTrue(changed.contains("menu_step"));
    Files.writeString(hooks, changed);
  }
}
