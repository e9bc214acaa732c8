package dev.ullage.slim;

import dev.ullage.loop.Board;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Extras.Report;
import dev.ullage.loop.Extras.Sleep;
import dev.ullage.loop.Loop;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;

/** Fewer extras, and plainer ones. */
final class ExtraChanges {
  private static final int[] BAUDS = {19_200, 9_600, 4_800, 2_400, 1_200};
  private static final int SLOWER_LINE = 2;
  private static final int NO_FRAMES = 3;
  private static final int NO_REPORT = 6;
  private static final int NO_SETTINGS = 6;
  private static final int NO_MUTE = 6;
  private static final int LIGHTER_SLEEP = 3;
  private static final int NO_SLEEP = 5;
  private static final int NO_WATCHDOG = 9;

  private ExtraChanges() {}

  static List<Change> of(Loop loop) {
    Extras extras = loop.extras();
    List<Change> changes = new ArrayList<>();
    if (extras.settings()) {
      changes.add(settings());
    }
    if (extras.muteButton()) {
      changes.add(mute());
    }
    extras.report().ifPresent(report -> report(report, changes));
    sleep(extras.sleep(), changes);
    extras.watchdogMs().ifPresent(ms -> changes.add(watchdog(ms)));
    return changes;
  }

  private static Change settings() {
    return Change.of(
        Aspect.SETTINGS,
        "extras.settings",
        "true",
        "false",
        NO_SETTINGS,
        "the threshold is part of the program: another one takes a new build",
        l -> {
          Extras e = l.extras();
          return Optional.of(
              l.with(new Extras(e.report(), false, e.watchdogMs(), e.sleep(), e.muteButton())));
        });
  }

  private static Change mute() {
    return Change.of(
        Aspect.MUTE,
        "extras.mute_button",
        "true",
        "false",
        NO_MUTE,
        "no button: the alarm cannot be silenced before its cause is gone",
        l -> {
          Extras e = l.extras();
          Extras silent = new Extras(e.report(), e.settings(), e.watchdogMs(), e.sleep(), false);
          return l.alarm().latch()
              ? Optional.empty()
              : Optional.of(OutputChanges.without(l.with(silent), Board.Role.MUTE));
        });
  }

  private static void report(Report now, List<Change> changes) {
    if (now.send() == Report.Send.FRAME) {
      slowed(now, now.baud(), Report.Send.AVERAGE, NO_FRAMES, changes);
    }
    for (int baud : BAUDS) {
      if (baud < now.baud()) {
        slowed(now, baud, now.send(), SLOWER_LINE, changes);
        if (now.send() == Report.Send.FRAME) {
          slowed(now, baud, Report.Send.AVERAGE, NO_FRAMES + SLOWER_LINE, changes);
        }
      }
    }
    changes.add(
        Change.of(
            Aspect.REPORT,
            "extras.report",
            words(now),
            "none",
            NO_REPORT,
            "no report line over the serial port",
            l ->
                Optional.of(
                    OutputChanges.without(reporting(l, Optional.empty()), Board.Role.TRANSMIT))));
  }

  private static void slowed(
      Report now, int baud, Report.Send send, int weight, List<Change> changes) {
    Report then = new Report(baud, send);
    String line =
        send == now.send()
            ? "the report comes"
            : "the report has the average only, not every sample, and comes";
    String loss =
        baud == now.baud()
            ? "the report has the average only, not every sample"
            : line + " at " + baud + " baud: whatever listens must be set to that";
    changes.add(
        Change.of(
            Aspect.REPORT,
            "extras.report",
            words(now),
            words(then),
            weight,
            loss,
            l -> Optional.of(reporting(l, Optional.of(then)))));
  }

  private static Loop reporting(Loop loop, Optional<Report> report) {
    Extras e = loop.extras();
    return loop.with(new Extras(report, e.settings(), e.watchdogMs(), e.sleep(), e.muteButton()));
  }

  private static String words(Report report) {
    return report.send().name().toLowerCase(Locale.ROOT) + ", " + report.baud() + " baud";
  }

  private static void sleep(Sleep now, List<Change> changes) {
    if (now == Sleep.DEEP) {
      changes.add(
          sleep(now, Sleep.IDLE, LIGHTER_SLEEP, "sleeps less deeply: more current while it waits"));
    }
    if (now != Sleep.NONE) {
      int weight = now == Sleep.DEEP ? LIGHTER_SLEEP + NO_SLEEP : NO_SLEEP;
      changes.add(sleep(now, Sleep.NONE, weight, "waits awake: a battery is empty much sooner"));
    }
  }

  private static Change sleep(Sleep now, Sleep then, int weight, String loss) {
    return Change.of(
        Aspect.SLEEP,
        "extras.sleep",
        now.name().toLowerCase(Locale.ROOT),
        then.name().toLowerCase(Locale.ROOT),
        weight,
        loss,
        l -> {
          Extras e = l.extras();
          return Optional.of(
              l.with(new Extras(e.report(), e.settings(), e.watchdogMs(), then, e.muteButton())));
        });
  }

  private static Change watchdog(int ms) {
    return Change.of(
        Aspect.WATCHDOG,
        "extras.watchdog_ms",
        String.valueOf(ms),
        "none",
        NO_WATCHDOG,
        "a program that hangs stays so until the power is switched off and on",
        l -> {
          Extras e = l.extras();
          Extras without =
              new Extras(e.report(), e.settings(), OptionalInt.empty(), e.sleep(), e.muteButton());
          return Optional.of(l.with(without));
        });
  }
}
