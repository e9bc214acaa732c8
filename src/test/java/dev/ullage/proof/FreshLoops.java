package dev.ullage.proof;

import dev.ullage.calibrate.CalibrationLoops;
import dev.ullage.loop.Board;
import dev.ullage.loop.Bring;
import dev.ullage.loop.Circuit;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopPrinter;
import dev.ullage.loop.Loops;
import dev.ullage.loop.Margin;
import dev.ullage.loop.Scale;
import dev.ullage.loop.Sensor;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Random loops that the cost tables were not made from. The draws of calibration follow from its
 * seed, so all of them are drawn again here, and a loop that is among them is left out: the two are
 * disjoint whatever seeds and odds are.
 */
final class FreshLoops {
  private FreshLoops() {}

  /** So many loops, less those left out; the same for the same seed. */
  static List<Loop> of(long seed, int count) {
    return without(CalibrationLoops.all(), Loops.random(seed, count));
  }

  /** The candidates that are the same job as none of the others. */
  static List<Loop> without(Stream<Loop> others, List<Loop> candidates) {
    Set<Frame> frames =
        candidates.stream().map(loop -> loop.sensor().frame()).collect(Collectors.toSet());
    Map<String, Loop> left = new LinkedHashMap<>();
    candidates.forEach(loop -> left.put(job(loop), loop));
    others
        .filter(loop -> frames.contains(loop.sensor().frame()))
        .forEach(loop -> left.remove(job(loop)));
    return new ArrayList<>(left.values());
  }

  /** The loop file without comments, and without what no size depends on, such as the name. */
  static String job(Loop loop) {
    return LoopPrinter.print(nameless(loop))
        .replaceAll(" *#.*", "")
        .replaceAll("(\\.[0-9]*?)0+(?=\\n)", "$1")
        .replaceAll("\\.(?=\\n)", "");
  }

  private static Loop nameless(Loop loop) {
    Sensor sensor = loop.sensor();
    return new Loop(
        "",
        loop.periodMs(),
        new Sensor(
            sensor.bus(),
            0,
            sensor.speedHz(),
            sensor.ask().stream().map(any -> 0).toList(),
            sensor.restart(),
            sensor.waitMs(),
            sensor.frozenAfter(),
            sensor.frame(),
            new Scale(sensor.scale().gain(), sensor.scale().offset(), "")),
        loop.average(),
        loop.alarm(),
        loop.outputs(),
        loop.extras(),
        new Board(
            loop.board().supplyV(),
            // Calibration tries each clock of a part.
            OptionalLong.empty(),
            0,
            0,
            loop.board().pins(),
            Circuit.USUAL),
        loop.busDriver(),
        loop.buffer(),
        new Bring(0, 0, 0),
        new Margin(0, 0));
  }
}
