package dev.ullage.replay;

import dev.ullage.input.Finding;
import dev.ullage.input.Findings;
import dev.ullage.input.InputException;
import dev.ullage.input.SourceText;
import dev.ullage.loop.Loop;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Recorded readings, one after the other.
 *
 * @param name what the user calls it
 * @param readings at least one; times count from the first, and never go back
 * @param periodMs from one reading to the next, as a rule
 * @param notes what a user should know of how the trace was read, a sentence each
 */
public record Trace(String name, List<Reading> readings, long periodMs, List<String> notes) {
  private static final int MOST_BYTES = 64 * 1024 * 1024;
  private static final int MOST_FINDINGS = 50;

  public Trace {
    readings = List.copyOf(readings);
    notes = List.copyOf(notes);
  }

  /**
   * Reads a trace.
   *
   * @throws InputException with all findings, up to some number
   */
  public static Trace read(Path file, Loop loop, TraceOptions options) {
    byte[] bytes = SourceText.bytesOf(file, MOST_BYTES);
    return read(
        file.toString(), SourceText.decode(file.toString(), bytes, MOST_BYTES), loop, options);
  }

  /**
   * Reads a trace from its text.
   *
   * @param name the file, as the user gave it
   */
  public static Trace read(String name, String text, Loop loop, TraceOptions options) {
    TraceReader reader = new TraceReader(name, loop, options);
    List<Reading> readings = new ArrayList<>();
    List<Finding> findings = new ArrayList<>();
    for (String line : (Iterable<String>) text.lines()::iterator) {
      try {
        reader.take(line).ifPresent(readings::add);
      } catch (InputException wrong) {
        findings.addAll(wrong.findings());
      }
      if (findings.size() >= MOST_FINDINGS || !findings.isEmpty() && !reader.knowsColumns()) {
        break;
      }
    }
    if (!findings.isEmpty()) {
      throw new InputException(findings);
    }
    if (readings.isEmpty()) {
      Findings none = new Findings(name);
      none.add(0, 0, "", "without any", "a trace with at least one reading");
      none.throwIfAny();
    }
    return new TraceTimes(name, reader, loop, options.missing()).trace(readings);
  }
}
