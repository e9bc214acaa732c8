package dev.ullage.proof;

import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** A script for a simulated board, and what should come of it. */
final class Trial {
  // Longer than any tick, so that the button is seen.
  private static final int PRESS_MS = 260;

  private final Loop loop;
  private final Script script = new Script();
  private final Expectation expected;
  private final List<long[]> frames = new ArrayList<>();

  Trial(Loop loop) {
    this.loop = loop;
    this.expected = new Expectation(loop);
  }

  Loop loop() {
    return loop;
  }

  Script script() {
    return script;
  }

  Expectation expected() {
    return expected;
  }

  /** A reading of these raw samples, or of this one in every place. */
  Trial raw(long... samples) {
    long[] all = everywhere(samples);
    script.frame(FrameBytes.of(loop.sensor().frame(), all));
    expected.frame(all);
    frames.add(all);
    return this;
  }

  /** A reading with every sample as near to this value as the sensor can say it. */
  Trial unit(double value) {
    return raw(rawOf(value));
  }

  /** The same so many times. */
  Trial units(int times, double value) {
    for (int i = 0; i < times; i++) {
      unit(value);
    }
    return this;
  }

  Trial deaf() {
    script.deaf();
    return fault();
  }

  Trial refuses() {
    script.refuses();
    return fault();
  }

  /** A reading whose last byte has one wrong bit. */
  Trial wrongCheck(double value) {
    int[] bytes = FrameBytes.of(loop.sensor().frame(), everywhere(rawOf(value)));
    bytes[bytes.length - 1] ^= 0x10;
    script.frame(bytes);
    return fault();
  }

  private Trial fault() {
    expected.fault();
    frames.add(new long[0]);
    return this;
  }

  /** The raw samples of each reading; none where it failed. */
  List<long[]> frames() {
    return List.copyOf(frames);
  }

  /** Whether there was no good frame. */
  boolean hasFailed(int reading) {
    return frames.get(reading).length == 0;
  }

  /** Whether a reading failed, or counted as failed. */
  boolean isFault(int reading) {
    return expected.isFault(reading);
  }

  Trial knob(int millivolts) {
    script.knob(millivolts);
    expected.knob(millivolts);
    return this;
  }

  Trial press() {
    script.press(PRESS_MS);
    expected.press();
    return this;
  }

  /** The nearest raw sample that there is. */
  long rawOf(double value) {
    double gain = loop.sensor().scale().gain().doubleValue();
    double offset = loop.sensor().scale().offset().doubleValue();
    Frame frame = loop.sensor().frame();
    return Math.max(frame.rawMin(), Math.min(frame.rawMax(), Math.round((value - offset) / gain)));
  }

  private long[] everywhere(long... samples) {
    int wanted = loop.sensor().frame().samples();
    if (samples.length == wanted) {
      return samples;
    }
    long[] all = new long[wanted];
    Arrays.fill(all, samples[0]);
    return all;
  }
}
