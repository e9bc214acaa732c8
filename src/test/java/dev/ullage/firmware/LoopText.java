package dev.ullage.firmware;

import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;

/** Short loop files for tests. */
final class LoopText {
  private LoopText() {}

  /** A thermometer loop, with more keys of the sensor and more sections. */
  static Loop loop(String sensorKeys, String sections) {
    return LoopReader.read(
        "test.yaml", "loop: test\nsensor:\n  address: 0x48\n" + sensorKeys + sections);
  }
}
