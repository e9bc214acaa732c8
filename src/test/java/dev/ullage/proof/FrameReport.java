package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.math.BigDecimal;
import java.util.List;

/** Report lines that hold every sample of a frame. */
final class FrameReport {
  private FrameReport() {}

  /** A line for each reading, with the unit values of its samples. */
  static void check(Trial trial, List<String> lines) {
    assertEquals(trial.frames().size(), lines.size(), "lines of the report");
    for (int i = 0; i < lines.size(); i++) {
      if (trial.isFault(i)) {
        assertEquals("-", lines.get(i));
      } else {
        line(trial, trial.frames().get(i), lines.get(i));
      }
    }
  }

  private static void line(Trial trial, long[] raw, String line) {
    String[] cells = line.split(",");
    assertEquals(raw.length, cells.length, line);
    for (int i = 0; i < raw.length; i++) {
      BigDecimal unit = trial.loop().sensor().scale().toUnit(BigDecimal.valueOf(raw[i]));
      SeenChecks.near(unit, BigDecimal.ZERO, cells[i]);
    }
  }
}
