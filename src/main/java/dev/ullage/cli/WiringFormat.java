package dev.ullage.cli;

/** How a wiring is written: as every report, or as a drawing of the package. */
enum WiringFormat {
  TEXT,
  JSON,
  CSV,
  MD,
  SVG
}
