package dev.ullage.cli;

import dev.ullage.firmware.Knob;
import dev.ullage.firmware.Whole;
import dev.ullage.input.Findings;
import dev.ullage.loop.Alarm;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Trace;
import dev.ullage.replay.TraceOptions;
import dev.ullage.report.ReplayReport;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Collectors;

/** Plays recorded readings through the arithmetic of a loop. */
final class ReplayCommand extends BaseCommand {
  private final Argument<Path> file = Argument.parameter("LOOP", Path.class, "The loop file.");
  private final Argument<String> trace =
      Argument.secondParameter(
          "TRACE",
          String.class,
          "The readings, as comma-separated values: a line for each, a column for each sample;"
              + " `-` for lines as they arrive on standard input.");
  private final Argument<String> limit =
      Argument.option(
          "--limit", "VALUE", String.class, "What the knob is set to, in the unit of the loop.");
  private final Argument<List<String>> presses =
      Argument.several(
          "--mute-after", "READING", "Press the mute button after this reading; may be repeated.");
  private final Argument<List<String>> columns =
      Argument.several(
          "--column", "NAME", "Column to read, by its name or number; one for each sample.");
  private final Argument<String> time =
      Argument.option(
          "--time",
          "NAME",
          String.class,
          "Column of the time; without, one called time_ms or time_s, else the period counts.");
  private final Argument<TraceOptions.Values> values =
      Argument.option(
          "--values",
          "KIND",
          TraceOptions.Values.class,
          "What the columns hold: unit, raw (counts) or bytes (of the frame). Without, columns"
              + " whose names begin with `raw` or `byte` are such.");
  private final Argument<TraceOptions.Missing> missing =
      Argument.option(
          "--missing",
          "HOW",
          TraceOptions.Missing.class,
          "refuse",
          "What an empty cell or a gap in time is: refuse (default: wrong), fault (a reading that"
              + " failed) or skip.");
  private final Argument<List<String>> frames =
      Argument.several(
          "--frame", "READING", "Show the frame of this reading; may be repeated for a picture.");
  private final Argument<Path> plot =
      Argument.option(
          "--plot", "FILE", Path.class, "Draw average, limits and alarm over time, as SVG.");
  private final Argument<Path> pictures =
      Argument.option(
          "--frames", "FILE", Path.class, "Draw frames beside each other over time, as SVG.");
  private final OutputOptions output = new OutputOptions();

  ReplayCommand(Surroundings around) {
    super("replay", around);
    describe(
        "Play recorded readings through a loop.",
        "Says when the alarm would have gone on and off over recorded readings, by the same"
            + " arithmetic as the emitted firmware; how noisy the average is; and, where the alarm"
            + " comes and goes, what would stop that.",
        "ullage replay cold-store.yaml trace.csv --limit 8 --plot alarm.svg");
    take(file, trace, limit, presses, columns, time, values, missing, frames, plot, pictures);
    output.addTo(this);
  }

  @Override
  ExitCode run() {
    Loop loop = LoopReader.read(file.value());
    int knob = knob(loop);
    return trace.value().equals("-") ? live(loop, knob) : recorded(loop, knob);
  }

  private ExitCode recorded(Loop loop, int knob) {
    Trace read = Trace.read(Path.of(trace.value()), loop, options());
    report(folded(() -> Replay.of(loop, read, knob, presses())));
    return ExitCode.GOOD;
  }

  private ExitCode live(Loop loop, int knob) {
    LiveReplay live =
        folded(
            () -> new LiveReplay(around, loop, knob, presses(), options(), output.style(around)));
    report(live.run());
    return live.sawFindings() ? ExitCode.FINDINGS : ExitCode.GOOD;
  }

  private void report(Replay replay) {
    List<Integer> shown = numbers(frames.value(), "--frame", replay.steps().size());
    ReplayReport report =
        ReplayReport.of(
            replay, shown.isEmpty() ? OptionalInt.empty() : OptionalInt.of(shown.get(0)));
    plot.ifGiven().ifPresent(path -> deliver(report.plot(), Optional.of(path)));
    pictures.ifGiven().ifPresent(path -> deliver(report.frames(shown), Optional.of(path)));
    deliver(report.text(output.format(), output.style(around)), output.file());
  }

  /** What 32 bits do not hold is a mistake in the loop file. */
  private <T> T folded(Supplier<T> made) {
    try {
      return made.get();
    } catch (Whole.TooWide wide) {
      Findings findings = new Findings(file.value().toString());
      findings.add(0, 0, "alarm", wide.getMessage(), "such that 32 bits hold its numbers");
      findings.throwIfAny();
      throw wide;
    }
  }

  private TraceOptions options() {
    return new TraceOptions(columns.value(), time.ifGiven(), values.ifGiven(), missing.value());
  }

  private Set<Integer> presses() {
    return presses.value().stream()
        .map(text -> number(text, "--mute-after", Integer.MAX_VALUE))
        .collect(Collectors.toUnmodifiableSet());
  }

  private List<Integer> numbers(List<String> texts, String option, int most) {
    return texts.stream().map(text -> number(text, option, most)).toList();
  }

  private int number(String text, String option, int most) {
    if (!text.matches("[0-9]{1,9}")
        || Integer.parseInt(text) < 1
        || Integer.parseInt(text) > most) {
      throw wrongUse(
          "`"
              + option
              + "` must be the number of a reading, from 1"
              + (most < Integer.MAX_VALUE ? " to " + most : "")
              + ", but was `"
              + text
              + "`");
    }
    return Integer.parseInt(text);
  }

  /** The code of the knob's converter; 0 is its lowest voltage, where it stands unless turned. */
  private int knob(Loop loop) {
    if (limit.ifGiven().isEmpty()) {
      return 0;
    }
    Alarm.Setting.Knob knob =
        loop.alarm()
            .limit()
            .knob()
            .orElseThrow(
                () -> wrongUse("`--limit` turns a knob, but the limit of this loop is fixed"));
    String text = limit.value();
    if (!text.matches("[-+]?[0-9]{1,12}([.][0-9]{1,9})?")) {
      throw wrongUse("`--limit` must be a number, but was `" + text + "`");
    }
    double from = knob.from().doubleValue();
    double turn = (new BigDecimal(text).doubleValue() - from) / (knob.to().doubleValue() - from);
    if (turn < 0 || turn > 1) {
      throw wrongUse(
          "`--limit` must be from "
              + knob.from().toPlainString()
              + " to "
              + knob.to().toPlainString()
              + ", as the knob goes, but was `"
              + text
              + "`");
    }
    return Knob.code(turn);
  }
}
