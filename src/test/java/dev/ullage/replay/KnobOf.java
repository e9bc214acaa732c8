package dev.ullage.replay;

import dev.ullage.firmware.Knob;
import dev.ullage.loop.Loop;
import java.util.Optional;

/** What a knob is set to at a code of its converter. */
public final class KnobOf {
  private KnobOf() {}

  /** In the unit; empty for a loop without a knob. */
  public static Optional<Double> loop(Loop loop, int code) {
    return loop.alarm()
        .limit()
        .knob()
        .map(
            knob ->
                knob.from().doubleValue()
                    + (knob.to().doubleValue() - knob.from().doubleValue()) * code / Knob.TOP);
  }
}
