package dev.ullage.cli;

/** How a survey is written: as every report, or as a page for a browser. */
enum SurveyFormat {
  TEXT,
  JSON,
  CSV,
  MD,
  HTML
}
