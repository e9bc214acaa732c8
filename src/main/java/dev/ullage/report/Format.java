package dev.ullage.report;

/** How a report is written. */
public enum Format {
  /** For a person at a terminal. */
  TEXT,
  /** For a program; stable, with a {@code schema} field. */
  JSON,
  /** For a spreadsheet: RFC 4180. */
  CSV,
  /** For a page. */
  MD
}
