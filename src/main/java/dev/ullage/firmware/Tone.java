package dev.ullage.firmware;

import dev.ullage.target.Timer;
import java.util.Map;

/**
 * A sounder's tone, made by a timer that toggles a pin.
 *
 * @param prescaler clock divider
 * @param top counts of half a wave, less one
 * @param hz what comes out
 */
public record Tone(Timer timer, int prescaler, int top, double hz) {

  private static final double TOLERANCE = 0.02;

  /** The divider of this timer that comes nearest, or one that is off by more than 2 per cent. */
  static Tone nearest(Timer timer, long clockHz, int wantedHz) {
    Tone best = null;
    for (Map.Entry<Integer, String> select : timer.clockSelect().entrySet()) {
      // Compare match output frequency: clock / (2 * prescaler * (1 + top)), AVR data sheets, "CTC
      // mode"; other timers alike.
      double divisor = (double) rounds(timer) * select.getKey();
      double counts = clockHz / (divisor * wantedHz);
      long top = Math.max(0, Math.round(counts) - 1);
      if (top < 1L << timer.bits()) {
        double hz = clockHz / (divisor * (top + 1));
        Tone tone = new Tone(timer, select.getKey(), (int) top, hz);
        if (best == null || tone.error(wantedHz) < best.error(wantedHz)) {
          best = tone;
        }
      }
    }
    if (best == null || best.error(wantedHz) > TOLERANCE) {
      throw new Lacking(
          "clock", "no divider of " + timer.name() + " comes within 2 % of " + wantedHz + " Hz");
    }
    return best;
  }

  private double error(int wantedHz) {
    return Math.abs(hz / wantedHz - 1);
  }

  private static int rounds(Timer timer) {
    return timer.toggle().orElseThrow().rounds();
  }

  /** Times in a second that the timer counts to its top. */
  double roundsPerSecond() {
    return rounds(timer) * hz;
  }
}
