package dev.ullage.proof;

import static java.util.stream.Collectors.joining;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Trace;
import dev.ullage.replay.TraceOptions;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Emitted firmware on a board that QEMU emulates, with QEMU's own temperature sensor: neither the
 * core nor the bus nor the sensor is ours. The board's family is test files only, so this shows too
 * that a family takes no Java.
 */
class EmulatedBoardTest {
  /** A TMP105: a register pointer, then 12 bits, left-aligned, of 1/16 degC. */
  private static final String CELLAR =
      """
      loop: wine cellar
      period_ms: 40
      sensor:
        address: 0x48
        ask: [0x00]
        frame: {sample_bytes: 2, byte_order: big, signed: true, shift_right: 4}
        scale: {gain: 0.0625, unit: degC}
      average: {over_time: moving, readings: 4}
      alarm: {when: above, threshold: 16, hysteresis: 1, trip_after: 2, clear_after: 2}
      outputs: {lamp: {}}
      extras: {report: {baud: 115200, send: average}}
      board: {pins: {sda: PB1, scl: PB0, lamp: PA0, transmit: PC0}}
      bus_driver: bitbang
      """;

  /** Thousandths of a degree; whole halves, which is what a TMP105 resolves after power-up. */
  private static final List<Integer> STEPS = List.of(12_000, 21_500, -5_500, 16_500, 14_500);

  private static final int READINGS_OF_STEP = 12;

  @TempDir static Path folder;

  @Test
  void temperatureGoesUpAndDown_alarmsAsReplayed() throws IOException, InterruptedException {
    Tool.require("qemu-system-arm", "arm-none-eabi-gcc");
    Loop loop = LoopReader.read("loop.yaml", CELLAR);
    Path elf = FirmwareBuild.build(plan(loop), Map.of(), folder);
    List<String> report = new ArrayList<>();
    try (EmulatedBoard board = EmulatedBoard.of(elf, folder)) {
      for (int step : STEPS) {
        board.temperature(step);
        board.go();
        report.addAll(board.lines(READINGS_OF_STEP));
        board.halt();
        assertEquals(report.get(report.size() - 1).endsWith(",1"), board.lamp(), "lamp at " + step);
      }
    }

    List<String> explained =
        courses(STEPS.size())
            .map(course -> replayed(loop, course, report.size()))
            .filter(report::equals)
            .findFirst()
            .orElse(List.of());
    assertEquals(report, explained, "no course of readings explains the report");
    String alarms = report.stream().map(line -> line.endsWith(",1") ? "#" : ".").collect(joining());
    assertTrue(alarms.matches("[.]+#+[.]+#+[.]+"), alarms);
  }

  /**
   * When each step may have come in, in readings after the last line that was waited for: the
   * program may have been one or two readings ahead of its report.
   */
  private static Stream<int[]> courses(int steps) {
    return IntStream.range(0, 1 << 2 * (steps - 1))
        .mapToObj(
            lags ->
                IntStream.range(0, steps)
                    .map(i -> i == 0 ? 0 : i * READINGS_OF_STEP + (lags >> 2 * (i - 1) & 3))
                    .toArray());
  }

  /** What the replay says of these readings, as the firmware would print it. */
  private static List<String> replayed(Loop loop, int[] begins, int readings) {
    StringBuilder text = new StringBuilder("value\n");
    int step = 0;
    for (int i = 0; i < readings; i++) {
      if (step + 1 < begins.length && begins[step + 1] == i) {
        step++;
      }
      text.append(STEPS.get(step) / 1000.0).append('\n');
    }
    Trace trace = Trace.read("trace.csv", text.toString(), loop, TraceOptions.NONE);
    Replay replay = Replay.of(loop, trace, 0, Set.of());
    return IntStream.range(0, readings)
        .mapToObj(
            i ->
                String.format(
                    Locale.ROOT,
                    "%.2f,%d",
                    replay.average(i),
                    replay.steps().get(i).alarm() ? 1 : 0))
        .toList();
  }

  private static Firmware plan(Loop loop) throws IOException {
    Path files = Files.createDirectories(folder.resolve("catalogue"));
    Files.copy(Path.of("targets/cores.yaml"), files.resolve("cores.yaml"));
    try (Stream<Path> own = Files.list(Path.of("src/test/resources/mps2"))) {
      for (Path file : own.toList()) {
        Files.copy(file, files.resolve(file.getFileName()));
      }
    }
    Target target = Catalogue.load(files).target("mps2-an385").orElseThrow();
    Plan plan = Plan.of(loop, target);
    if (plan instanceof Plan.Possible possible) {
      return possible.firmware();
    }
    throw new AssertionError(plan);
  }
}
