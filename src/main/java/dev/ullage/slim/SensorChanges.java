package dev.ullage.slim;

import dev.ullage.loop.Frame;
import dev.ullage.loop.Frame.Crc8.Over;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Sensor;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Fewer safeguards of the readings: the last resort. */
final class SensorChanges {
  private static final int NO_FROZEN = 8;
  private static final int NO_CHECK = 15;

  private SensorChanges() {}

  static List<Change> of(Loop loop) {
    List<Change> changes = new ArrayList<>();
    Sensor sensor = loop.sensor();
    sensor
        .frame()
        .check()
        .filter(crc -> isLastByte(sensor.frame(), crc))
        .ifPresent(crc -> changes.add(check()));
    if (sensor.frozenAfter() > 0) {
      changes.add(frozen(sensor.frozenAfter()));
    }
    return changes;
  }

  /** A check byte at the very end need not be read; one between samples would be taken for one. */
  private static boolean isLastByte(Frame frame, Frame.Crc8 crc) {
    return crc.over() == Over.FRAME || frame.samples() == 1;
  }

  private static Change check() {
    return Change.of(
        Aspect.CHECK,
        "sensor.frame.check",
        "crc8",
        "none",
        NO_CHECK,
        "a reading that was damaged on the bus is taken for a good one",
        l -> {
          Frame f = l.sensor().frame();
          Frame unchecked =
              new Frame(
                  f.skipBytes(),
                  f.samples(),
                  f.columns(),
                  f.sampleBytes(),
                  f.byteOrder(),
                  f.signed(),
                  f.shiftRight(),
                  f.bits(),
                  Optional.empty());
          return Optional.of(l.with(sensor(l.sensor(), l.sensor().frozenAfter(), unchecked)));
        });
  }

  private static Change frozen(int now) {
    return Change.of(
        Aspect.FROZEN,
        "sensor.frozen_after",
        String.valueOf(now),
        "0",
        NO_FROZEN,
        "a sensor that sends the same value for ever is not noticed",
        l -> Optional.of(l.with(sensor(l.sensor(), 0, l.sensor().frame()))));
  }

  private static Sensor sensor(Sensor s, int frozenAfter, Frame frame) {
    return new Sensor(
        s.bus(),
        s.address(),
        s.speedHz(),
        s.ask(),
        s.restart(),
        s.waitMs(),
        frozenAfter,
        frame,
        s.scale());
  }
}
