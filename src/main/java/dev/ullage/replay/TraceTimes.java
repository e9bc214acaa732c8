package dev.ullage.replay;

import dev.ullage.input.Findings;
import dev.ullage.loop.Loop;
import dev.ullage.replay.TraceOptions.Missing;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** The times of a trace: whether they go on evenly, and what to do where they do not. */
final class TraceTimes {
  private static final int MOST_FINDINGS = 50;
  private static final int MOST_FILLED = 1_000_000;
  // Where a reading is missing, the next one comes two periods later; half of one may be jitter.
  private static final double GAP = 1.5;

  private final TraceReader reader;
  private final Loop loop;
  private final Missing policy;
  private final Findings findings;
  private final String name;

  TraceTimes(String name, TraceReader reader, Loop loop, Missing policy) {
    this.name = name;
    this.reader = reader;
    this.loop = loop;
    this.policy = policy;
    this.findings = new Findings(name);
  }

  Trace trace(List<Reading> readings) {
    List<String> notes = new ArrayList<>(beyond());
    if (reader.time().isEmpty()) {
      return new Trace(name, readings, loop.periodMs(), notes);
    }
    long period = period(readings);
    List<Reading> even = evened(readings, period);
    findings.throwIfAny();
    if (Math.abs(period - loop.periodMs()) * 100 > loop.periodMs()) {
      notes.add(
          "the trace has a reading each "
              + Span.of(period)
              + ", the loop one each "
              + Span.of(loop.periodMs())
              + "; each line is taken as one reading, and times are those of the trace");
    }
    return new Trace(name, even, period, notes);
  }

  private List<String> beyond() {
    UnitCounts counts = reader.counts();
    if (counts.beyond() == 0) {
      return List.of();
    }
    return List.of(
        counts.beyond()
            + (counts.beyond() == 1 ? " value is" : " values are")
            + " beyond what the sensor can send, the first in line "
            + counts.firstBeyond()
            + "; taken as the end of its range");
  }

  /** The middle one of all steps in time, or the loop's where there is none. */
  private long period(List<Reading> readings) {
    long[] steps =
        IntStream.range(1, readings.size())
            .mapToLong(i -> readings.get(i).timeMs() - readings.get(i - 1).timeMs())
            .sorted()
            .toArray();
    return steps.length == 0 || steps[steps.length / 2] <= 0
        ? loop.periodMs()
        : steps[steps.length / 2];
  }

  /** Times from the first reading on, with what is missing between them as the policy has it. */
  private List<Reading> evened(List<Reading> readings, long period) {
    List<Reading> even = new ArrayList<>();
    long first = readings.get(0).timeMs();
    long before = first;
    for (Reading reading : readings) {
      long step = reading.timeMs() - before;
      if (step <= 0 && !even.isEmpty()) {
        report(reading, "later than the line before", step < 0 ? "earlier" : "the same");
      } else if (step > period * GAP) {
        bridge(even, reading, before - first, step, period);
      }
      before = reading.timeMs();
      even.add(new Reading(reading.line(), reading.timeMs() - first, reading.raw()));
      if (findings.sorted().size() >= MOST_FINDINGS) {
        break;
      }
    }
    return even;
  }

  private void bridge(List<Reading> even, Reading reading, long before, long step, long period) {
    long missing = Math.round((double) step / period) - 1;
    if (policy == Missing.REFUSE) {
      String expected = "about " + period + " ms after the line before, as most are";
      String cure =
          "`--missing fault` takes what should be between as failed readings,"
              + " `--missing skip` does without them";
      findings.add(reading.line(), 0, timeName(), step + " ms after it", expected, cure);
    } else if (policy == Missing.FAULT && even.size() + missing > MOST_FILLED) {
      report(reading, "near enough to fill the gap", missing + " readings later");
    } else if (policy == Missing.FAULT) {
      for (long i = 1; i <= missing; i++) {
        even.add(Reading.failed(reading.line(), before + i * step / (missing + 1)));
      }
    }
  }

  private void report(Reading reading, String expected, String found) {
    findings.add(reading.line(), 0, timeName(), found, expected);
  }

  private String timeName() {
    return reader.time().map(TimeColumn::name).orElse("time");
  }
}
