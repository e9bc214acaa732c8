package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.replay.Event;
import dev.ullage.replay.Remedy;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Span;
import dev.ullage.replay.Spread;
import dev.ullage.replay.Summary;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** The parts of a replay's report as tables. */
final class ReplayTables {
  private static final int HUNDRED = 100;

  private ReplayTables() {}

  /** A row for each time that the alarm goes on or off. */
  static Table events(Replay replay, List<Event> events) {
    Values values = Values.judged(replay.loop());
    return new Table(
        List.of(left("alarm"), right("reading"), right("after"), right("average " + values.unit())),
        events.stream()
            .map(
                event ->
                    List.of(
                        event.alarm() ? "on" : "off",
                        "" + event.reading(),
                        Span.of(event.timeMs()),
                        average(replay, event.reading() - 1, values)))
            .toList());
  }

  private static String average(Replay replay, int index, Values values) {
    double average = replay.average(index);
    return Double.isNaN(average) ? "failed" : values.bare(average);
  }

  /** What would stop the alarm from coming back, each with what it costs. */
  static Table remedies(List<Remedy> remedies, long periodMs) {
    return new Table(
        List.of(
            left("set"),
            right("to"),
            right("alarms"),
            right("missed"),
            right("on later by"),
            right("off later by")),
        remedies.stream()
            .map(
                remedy ->
                    List.of(
                        remedy.setting().key(),
                        remedy.value().toPlainString(),
                        "" + remedy.alarms(),
                        "" + remedy.missed(),
                        delay(remedy.laterOn(), periodMs),
                        delay(remedy.laterOff(), periodMs)))
            .toList());
  }

  private static String delay(int readings, long periodMs) {
    return readings <= 0 ? "0" : Span.of(readings * periodMs);
  }

  /** The figures, with what they are called. */
  static Table summary(Replay replay) {
    Summary summary = replay.summary();
    Values values = Values.judged(replay.loop());
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("readings", readings(summary)));
    rows.add(List.of("alarm", alarm(summary)));
    rows.add(List.of("average", summary.average().map(s -> average(s, values)).orElse("none yet")));
    rows.add(List.of("noise", noise(summary, values)));
    rows.add(List.of("chatter", chatter(summary)));
    return new Table(List.of(left("of"), left("")), rows);
  }

  private static String readings(Summary summary) {
    return summary.readings()
        + " in "
        + Span.of(summary.lengthMs())
        + (summary.failed() == 0 ? ", none of them failed" : ", " + summary.failed() + " failed");
  }

  private static String alarm(Summary summary) {
    if (summary.alarms() == 0) {
      return "never on";
    }
    return String.format(
        Locale.ROOT,
        "on %s, for %s in all, %.1f %% of the time",
        times(summary.alarms()),
        Span.of(summary.alarmMs()),
        (double) HUNDRED * summary.alarmMs() / summary.lengthMs());
  }

  private static String times(int count) {
    return count == 1 ? "once" : count == 2 ? "twice" : count + " times";
  }

  private static String average(Spread spread, Values values) {
    return "from "
        + values.bare(spread.low())
        + " to "
        + values.full(spread.high())
        + ", peak to peak "
        + values.bare(spread.peakToPeak())
        + "; mean "
        + values.bare(spread.mean())
        + ", standard deviation "
        + values.rough(spread.sd());
  }

  private static String noise(Summary summary, Values values) {
    return values.rough(summary.noiseSd())
        + " standard deviation, of the average without its slow changes";
  }

  private static String chatter(Summary summary) {
    String soon = "came back within " + summary.settlesIn() + " readings of going off";
    if (summary.returns() > 0) {
      return "the alarm " + soon + ' ' + times(summary.returns());
    }
    return summary.alarms() < 2 ? "none" : "none: the alarm never " + soon;
  }

  /** A row for each reading. */
  static Table readings(Replay replay) {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < replay.steps().size(); i++) {
      double average = replay.average(i);
      rows.add(
          List.of(
              "" + (i + 1),
              "" + replay.trace().readings().get(i).timeMs(),
              replay.steps().get(i).good() ? "1" : "0",
              Double.isNaN(average) ? "" : Double.toString(average),
              replay.steps().get(i).alarm() ? "1" : "0"));
    }
    return new Table(
        List.of(
            right("reading"), right("time_ms"), right("good"), right("average"), right("alarm")),
        rows);
  }

  static String markdown(ReplayReport report) {
    Replay replay = report.replay();
    StringBuilder page = new StringBuilder("# ");
    page.append(Markdown.text(replay.loop().name())).append(" over ");
    page.append(Markdown.text(replay.trace().name())).append("\n\n");
    page.append(Markdown.table(summary(replay))).append('\n');
    page.append(Markdown.table(events(replay, replay.events())));
    if (!report.remedies().isEmpty()) {
      page.append('\n');
      page.append(Markdown.table(remedies(report.remedies(), replay.trace().periodMs())));
    }
    replay.trace().notes().forEach(note -> page.append("\nNote: ").append(note).append(".\n"));
    return page.toString();
  }

  /** What the knob is set to, where there is one. */
  static Optional<String> knob(Replay replay) {
    return replay
        .loop()
        .alarm()
        .limit()
        .knob()
        .map(
            knob ->
                "the knob stands at "
                    + Values.judged(replay.loop()).full(replay.limits().trip().get(0))
                    + "; --limit turns it");
  }
}
