package dev.ullage.report;

import dev.ullage.replay.Remedies;
import dev.ullage.replay.Remedy;
import dev.ullage.replay.Replay;
import java.util.List;
import java.util.OptionalInt;

/**
 * What the alarm did over a trace.
 *
 * @param remedies what would stop it from coming back too soon
 * @param frame number of the reading whose frame is shown; empty for the first with an alarm, or
 *     the last
 */
public record ReplayReport(Replay replay, List<Remedy> remedies, OptionalInt frame) {

  public static ReplayReport of(Replay replay, OptionalInt frame) {
    return new ReplayReport(replay, Remedies.of(replay), frame);
  }

  /** The report as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> new ReplayText(this, style).text();
      case JSON -> ReplayJson.of(this);
      case CSV -> Csv.of(ReplayTables.readings(replay));
      case MD -> ReplayTables.markdown(this);
    };
  }

  /** The average, its limits and the alarm over time, as an SVG document. */
  public String plot() {
    return new ReplayPlot(replay).svg();
  }

  /**
   * Frames beside each other over time, as an SVG document.
   *
   * @param readings their numbers, from 1; empty for a choice of them
   */
  public String frames(List<Integer> readings) {
    return new FrameStrip(replay, readings.isEmpty() ? FrameStrip.choice(replay) : readings).svg();
  }
}
