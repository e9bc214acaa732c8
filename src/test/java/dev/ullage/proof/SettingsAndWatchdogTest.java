package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Loop;
import dev.ullage.proof.SimulatedBoard.Simulator;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/** A threshold that outlives the power, and a program that hangs. */
class SettingsAndWatchdogTest {
  private static final String WINE_RACK =
      """
      loop: wine rack
      period_ms: 1000
      sensor:
        address: 0x18
        frame: {sample_bytes: 2, byte_order: little, signed: true}
        scale: {gain: 0.5, unit: degC}
      alarm: {when: above, threshold: 16, hysteresis: 2}
      outputs: {lamp: {}}
      extras: {EXTRAS}
      """;
  private static final String SETTINGS = WINE_RACK.replace("EXTRAS", "settings: true");
  private static final String WATCHED = WINE_RACK.replace("EXTRAS", "watchdog_ms: 1000");

  // 20 degC in counts of half a degree, the low byte first, then 0xA5 and both bytes combined.
  private static final int[] KEPT_20 = {40, 0, 0xA5 ^ 40};

  /** Two words, in the first of the two places that RP2040 has for them. */
  private static final int[] KEPT_18_IN_FLASH = {36, 0, 0, 0, 0xA5 ^ 36, 0, 0, 0};

  /** Each erases and writes one place, and then the other. */
  private static final int STEPS_OF_TWO_CHANGES = 8;

  private static final int[] DAMAGED = {40, 0, 0xA5 ^ 41};
  private static final int[] ERASED = {0xFF, 0xFF, 0xFF};

  private static final String HOOKS = "yours/hooks.h";
  private static final String KEEPING =
      """
      #include "../src/settings.h"
      /* Keeps it, forgets it, and takes it from the EEPROM. */
      #define YOURS_BEGIN() (settings_keep(40), settings_trip = 0, settings_load())
      #define YOURS_EACH_READING(alarm) ((void)(alarm))
      """;
  private static final String HANGING =
      """
      #include <stdint.h>
      static uint8_t yours_readings;
      #define YOURS_BEGIN() ((void)0)
      #define YOURS_EACH_READING(alarm) \\
          do { \\
              (void)(alarm); \\
              if (++yours_readings == 3) { \\
                  for (;;) { \\
                  } \\
              } \\
          } while (0)
      """;

  private static final String CHANGING =
      """
      #include "../src/settings.h"
      #define YOURS_BEGIN() \\
          do { \\
              if (settings_trip == 36) { \\
                  settings_keep(38); \\
              } \\
              if (settings_trip == 38) { \\
                  settings_keep(40); \\
              } \\
          } while (0)
      #define YOURS_EACH_READING(alarm) ((void)(alarm))
      """;
  private static final String CHANGING_AND_HANGING =
      """
      #include <stdint.h>
      #include "../src/settings.h"
      static uint8_t yours_readings;
      #define YOURS_BEGIN() ((void)0)
      #define YOURS_EACH_READING(alarm) \\
          do { \\
              (void)(alarm); \\
              if (++yours_readings == 3 && settings_trip != 40) { \\
                  settings_keep(40); \\
                  for (;;) { \\
                  } \\
              } \\
          } while (0)
      """;

  private static final List<String> PLACES =
      List.of("attiny85 bitbang", "atmega8 polled", "atmega328p buffered", "atmega2560 polled");

  private static final List<String> OTHER_PLACES =
      List.of(
          "stm32f030f4 polled",
          "ch32v003f4p6 buffered",
          "nrf51822_xxaa polled",
          "samd10d14a polled",
          "samd20e14a buffered",
          "stm32g030f6 buffered",
          "stm32l011f4 polled",
          "gd32vf103c8t6 bitbang",
          "stm32f051k8 buffered",
          "stm32f072cb polled",
          "stm32l053c8 buffered",
          "ch32v203k8t6 polled",
          "lpc802m001 polled",
          "lpc812m101 buffered",
          "lpc824m201 bitbang",
          "lpc845m301 polled",
          "rp2040-512k polled");

  @TempDir static Path folder;
  private static BoardRun run;
  private static BoardRun otherCores;

  @BeforeAll
  static void build() {
    run = new BoardRun(new SimulatedBoard(folder));
    otherCores = new BoardRun(new SimulatedBoard(folder, Simulator.UNICORN));
  }

  @AfterAll
  static void sumUp() {
    run.sumUp("settings and watchdog");
  }

  @TestFactory
  Stream<DynamicTest> keptThreshold() {
    List<BoardCase> cases = new ArrayList<>();
    for (String place : PLACES) {
      cases.add(settings(place, "threshold in the EEPROM", 20, KEPT_20));
      cases.add(settings(place, "wrong check byte in the EEPROM", 16, DAMAGED));
      cases.add(settings(place, "erased EEPROM", 16, ERASED));
      cases.add(
          settings(place, "threshold kept by the program", 20, ERASED)
              .with(Map.of(HOOKS, KEEPING)));
    }
    return run.tests(cases, SeenChecks::doesItsJob);
  }

  /** In flash or its EEPROM, erased and written as the manual says, or the board complains. */
  @TestFactory
  Stream<DynamicTest> keptThresholdInFlash() {
    List<BoardCase> cases = new ArrayList<>();
    for (String place : OTHER_PLACES) {
      cases.add(of(place, "nothing kept yet", SETTINGS, loop -> beside(new Trial(loop), 16)));
      cases.add(
          of(place, "threshold kept by the program", SETTINGS, loop -> beside(kept(loop), 20))
              .with(Map.of(HOOKS, KEEPING)));
    }
    // The first reading waits for the erasure, so the first period is not judged.
    return otherCores.tests(
        cases, (each, seen) -> assertEquals(each.trial().expected().alarms(), seen.alarms()));
  }

  /**
   * The power fails in each step of two changes, from 18 degC to 19 and to 20, on a part that then
   * has the old threshold or the new one: the program goes on from that, and never from the 16 of
   * its loop file.
   */
  @TestFactory
  Stream<DynamicTest> powerThatFailsWhileTheThresholdIsChanged() {
    List<BoardCase> cases = new ArrayList<>();
    for (int step = 1; step <= STEPS_OF_TWO_CHANGES + 1; step++) {
      int cut = step;
      cases.add(
          of("rp2040-512k buffered", "power cut in step " + step, SETTINGS, loop -> cut(loop, cut))
              .with(Map.of(HOOKS, CHANGING)));
    }
    return otherCores.tests(
        cases,
        (each, seen) -> {
          boolean fails = !each.what().endsWith(String.valueOf(STEPS_OF_TWO_CHANGES + 1));
          assertEquals(fails ? 1 : 0, seen.resets().size(), "resets");
          assertEquals(each.trial().expected().alarms(), seen.alarms());
        });
  }

  private static Trial cut(Loop loop, int step) {
    Trial trial = new Trial(loop);
    trial.script().eeprom(KEPT_18_IN_FLASH).cut(step);
    trial.expected().kept(BigDecimal.valueOf(20));
    return beside(trial, 20);
  }

  /** Changed at the third reading, after which the program hangs: the watchdog starts it again. */
  @TestFactory
  Stream<DynamicTest> thresholdThatOutlivesAReset() {
    BoardCase each =
        of(
                "rp2040-512k bitbang",
                "changed, then hung",
                WINE_RACK.replace("EXTRAS", "settings: true, watchdog_ms: 500"),
                SettingsAndWatchdogTest::changed)
            .with(Map.of(HOOKS, CHANGING_AND_HANGING));
    return otherCores.tests(
        List.of(each),
        (any, seen) -> {
          assertEquals(1, seen.resets().size(), "resets");
          assertEquals(each.trial().expected().alarms(), seen.alarms());
        });
  }

  private static Trial changed(Loop loop) {
    Trial trial = new Trial(loop);
    trial.expected().kept(BigDecimal.valueOf(20));
    return beside(trial.units(3, 10), 20);
  }

  private static Trial kept(Loop loop) {
    Trial trial = new Trial(loop);
    trial.expected().kept(BigDecimal.valueOf(20));
    return trial;
  }

  private static BoardCase settings(String place, String what, int limit, int[] eeprom) {
    return of(place, what, SETTINGS, loop -> around(loop, limit, eeprom));
  }

  /** One count beside the limits, on either side. */
  private static Trial around(Loop loop, int limit, int[] eeprom) {
    Trial trial = new Trial(loop);
    trial.script().eeprom(eeprom);
    trial.expected().kept(BigDecimal.valueOf(limit));
    return beside(trial, limit);
  }

  private static Trial beside(Trial trial, int limit) {
    for (double beside : new double[] {-3, 0, 0.5, 0, -1.5, -2, -1.5, 0, 0.5, -4}) {
      trial.unit(limit + beside);
    }
    return trial;
  }

  /** A program that hangs is restarted after about the time that the loop file says. */
  @TestFactory
  Stream<DynamicTest> hangingProgram() {
    List<BoardCase> cases = new ArrayList<>();
    for (String place : List.of("attiny13a bitbang", "attiny85 bitbang", "atmega328p polled")) {
      cases.add(
          of(place, "a program that hangs", WATCHED, loop -> new Trial(loop).units(7, 20))
              .with(Map.of(HOOKS, HANGING)));
    }
    return run.tests(cases, SettingsAndWatchdogTest::isRestarted);
  }

  @TestFactory
  Stream<DynamicTest> hangingProgramOnOtherCores() {
    List<BoardCase> cases = new ArrayList<>();
    for (String place : OTHER_PLACES) {
      cases.add(
          of(place, "a program that hangs", WATCHED, loop -> new Trial(loop).units(7, 20))
              .with(Map.of(HOOKS, HANGING)));
    }
    return otherCores.tests(cases, SettingsAndWatchdogTest::isRestarted);
  }

  private static void isRestarted(BoardCase each, Seen seen) {
    assertEquals(2, seen.resets().size(), "resets");
    assertEquals(7, seen.stops().size(), "it reads on");
    for (int i = 0; i < 2; i++) {
      double hungMs = (seen.resets().get(i) - seen.stops().get(3 * i + 2)) / 1000.0;
      assertTrue(hungMs > 900 && hungMs < 1_100, () -> hungMs + " ms until the reset");
    }
  }

  private static BoardCase of(
      String place, String what, String text, java.util.function.Function<Loop, Trial> trial) {
    String[] words = place.split(" ");
    return BoardCase.of("wine rack", what, BoardCase.driven(text, words[1]), words[0], trial);
  }
}
