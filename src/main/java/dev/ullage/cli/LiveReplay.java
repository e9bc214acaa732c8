package dev.ullage.cli;

import dev.ullage.firmware.Arithmetic;
import dev.ullage.input.Finding;
import dev.ullage.input.Findings;
import dev.ullage.input.InputException;
import dev.ullage.loop.Loop;
import dev.ullage.replay.LoopMachine;
import dev.ullage.replay.Reading;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Trace;
import dev.ullage.replay.TraceOptions;
import dev.ullage.replay.TraceReader;
import dev.ullage.report.LiveView;
import dev.ullage.report.Style;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * Readings as they arrive: each is shown at once. A line that cannot be read is complained of and
 * left out, since on a serial line any may be torn.
 */
final class LiveReplay {
  private static final String NAME = "standard input";

  private final Surroundings around;
  private final Loop loop;
  private final int knob;
  private final Set<Integer> presses;
  private final TraceReader reader;
  private final LoopMachine machine;
  private final LiveView view;
  private final List<Reading> readings = new ArrayList<>();
  private boolean findings;

  LiveReplay(
      Surroundings around,
      Loop loop,
      int knob,
      Set<Integer> presses,
      TraceOptions options,
      Style style) {
    this.around = around;
    this.loop = loop;
    this.knob = knob;
    this.presses = presses;
    this.reader = new TraceReader(NAME, loop, options);
    Arithmetic arithmetic = Arithmetic.of(loop);
    this.machine = new LoopMachine(loop, arithmetic, knob);
    this.view = new LiveView(loop, arithmetic, knob, style, around.terminal() || style.color());
  }

  /**
   * Until the end of the input.
   *
   * @return all of it, as if it had been recorded
   */
  Replay run() {
    try (BufferedReader in =
        new BufferedReader(new InputStreamReader(around.in(), StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        take(line);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    if (readings.isEmpty()) {
      Findings none = new Findings(NAME);
      none.add(0, 0, "", "without any", "a trace with at least one reading");
      none.throwIfAny();
    }
    Trace trace = new Trace(NAME, readings, loop.periodMs(), List.of());
    return Replay.of(loop, trace, knob, presses);
  }

  /** Whether there was a line that could not be read. */
  boolean sawFindings() {
    return findings;
  }

  private void take(String line) {
    try {
      reader.take(line).ifPresent(this::show);
    } catch (InputException wrong) {
      findings = true;
      wrong.findings().stream().map(Finding::text).forEach(around.err()::println);
      around.err().flush();
    }
  }

  private void show(Reading reading) {
    readings.add(reading);
    around.out().print(view.after(reading, machine.take(reading)));
    if (presses.contains(readings.size())) {
      machine.pressMute();
    }
    around.out().flush();
  }
}
