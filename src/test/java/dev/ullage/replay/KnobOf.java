package dev.ullage.replay;

import dev.ullage.firmware.Knob;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Loop;
import java.util.Optional;

/** What a knob is set to at a code of its converter. */
public final class KnobOf {
  private KnobOf() {}

  /** In the unit; empty for a loop without a knob. */
  public static Optional<Double> loop(Loop loop, int code) {
    Alarm.Limit limit = loop.alarm().limit();
    Alarm.Setting setting =
        limit instanceof Alarm.Limit.Above above
            ? above.setting()
            : limit instanceof Alarm.Limit.Below below ? below.setting() : null;
    return setting instanceof Alarm.Setting.Knob knob
        ? Optional.of(
            knob.from().doubleValue()
                + (knob.to().doubleValue() - knob.from().doubleValue()) * code / Knob.TOP)
        : Optional.empty();
  }
}
