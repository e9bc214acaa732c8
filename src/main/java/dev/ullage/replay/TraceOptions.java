package dev.ullage.replay;

import java.util.List;
import java.util.Optional;

/**
 * What a trace does not say about itself.
 *
 * @param columns names or numbers (from 1) of the columns to read, in the order of the samples;
 *     empty for all but that of the time
 * @param time the column of the time; if empty, one named {@code time_ms} or {@code time_s}
 * @param values what the columns hold; if empty, what their names say
 */
public record TraceOptions(
    List<String> columns, Optional<String> time, Optional<Values> values, Missing missing) {

  /** Everything as the trace says it. */
  public static final TraceOptions NONE =
      new TraceOptions(List.of(), Optional.empty(), Optional.empty(), Missing.REFUSE);

  public TraceOptions {
    columns = List.copyOf(columns);
  }

  /** What a column holds. */
  public enum Values {
    /** A value in the unit of the loop, for each sample. */
    UNIT,
    /** A count for each sample. */
    RAW,
    /** The bytes of the frame as they come over the bus, from the first skipped one on. */
    BYTES
  }

  /** What becomes of readings that are not there: an empty cell, or a gap in time. */
  public enum Missing {
    /** They are findings. */
    REFUSE,
    /** They count as readings that failed. */
    FAULT,
    /** They are left out, as if they had never been due. */
    SKIP
  }
}
