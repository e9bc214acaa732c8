package dev.ullage.calibrate;

import dev.ullage.loop.Loop;
import java.util.stream.Stream;

/** What the cost tables were made from, for tests that must not use the same. */
public final class CalibrationLoops {
  /** More than any run drew that made the tables: the default is 12,000. */
  public static final int DRAWS = 60_000;

  private CalibrationLoops() {}

  /** Every loop that calibration may have compiled modules of. */
  public static Stream<Loop> all() {
    return Calibration.loops(DRAWS)
        .flatMap(loop -> Stream.of(loop, LoopDraw.withOneMoreToAsk(loop)));
  }
}
