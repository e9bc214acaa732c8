package dev.ullage.loop;

import java.util.Map;
import java.util.TreeMap;

/** Rules that tie the parts of a loop together: outputs, time and pins. */
final class WholeRules {
  private static final long MICROSECONDS_PER_MS = 1_000;

  private final Judge judge;
  private final Loop loop;

  WholeRules(Judge judge) {
    this.judge = judge;
    this.loop = judge.loop;
  }

  void somethingIsDriven() {
    Outputs outputs = loop.outputs();
    if (judge.trusts("outputs")
        && outputs.lamp().isEmpty()
        && outputs.sounder().isEmpty()
        && outputs.relay().isEmpty()) {
      judge.report(
          "outputs",
          "without any",
          "a mapping with a lamp, a sounder or a relay",
          "leave `outputs` out for a steady lamp");
    }
  }

  void periodHoldsReading() {
    if (!trustsBusyTime() || !judge.trusts("period_ms")) {
      return;
    }
    long needed = busyMs(loop);
    if (loop.periodMs() < needed) {
      judge.report(
          "period_ms",
          loop.periodMs() + " ms",
          "at least " + needed + " ms: " + busyParts(),
          "lengthen the period" + fasterCure());
    }
  }

  void watchdogHoldsReading() {
    if (!trustsBusyTime()
        || !judge.trusts("extras.watchdog_ms")
        || loop.extras().watchdogMs().isEmpty()) {
      return;
    }
    int watchdog = loop.extras().watchdogMs().getAsInt();
    if (watchdog < busyMs(loop)) {
      judge.report(
          "extras.watchdog_ms",
          watchdog + " ms",
          "longer than a reading takes, " + busyMs(loop) + " ms: " + busyParts());
    }
  }

  private boolean trustsBusyTime() {
    return judge.trusts("sensor", "extras.report");
  }

  /** Bus, wait and report line one after the other, rounded up. */
  static long busyMs(Loop loop) {
    long microseconds = BusTime.of(loop.sensor()).microseconds() + ReportLine.microseconds(loop);
    return loop.sensor().waitMs() + (microseconds + MICROSECONDS_PER_MS - 1) / MICROSECONDS_PER_MS;
  }

  private String busyParts() {
    BusTime bus = BusTime.of(loop.sensor());
    String parts = bus.bytes() + " bytes on the bus take " + bus.microseconds() + " us";
    if (loop.sensor().waitMs() > 0) {
      parts += ", the wait " + loop.sensor().waitMs() + " ms";
    }
    long line = ReportLine.microseconds(loop);
    return line > 0 ? parts + ", a report line up to " + line + " us" : parts;
  }

  private String fasterCure() {
    return ReportLine.microseconds(loop) > BusTime.of(loop.sensor()).microseconds()
        ? ", or raise `extras.report.baud`"
        : ", or raise `sensor.speed_hz` if the sensor can follow";
  }

  void pinsAreUsedOnce() {
    if (!judge.trusts("board.pins")) {
      return;
    }
    Map<String, Board.Role> users = new TreeMap<>();
    for (Map.Entry<Board.Role, String> pin : new TreeMap<>(loop.board().pins()).entrySet()) {
      Board.Role first = users.putIfAbsent(pin.getValue(), pin.getKey());
      if (first != null) {
        judge.report(
            "board.pins." + LoopWords.of(pin.getKey()),
            pin.getValue(),
            "another pin than that of " + LoopWords.of(first));
      }
    }
  }
}
