package dev.ullage.cli;

import dev.ullage.report.Format;
import dev.ullage.report.Style;
import java.nio.file.Path;
import java.util.Optional;

/** How a report is written, and where to. */
final class OutputOptions {
  private static final int WIDEST = 240;

  private final Argument<? extends Enum<?>> format;
  private final Argument<Path> file =
      Argument.option(
          "-o --output",
          "FILE",
          Path.class,
          "Write to this file, all or nothing, instead of printing.");
  private final Argument<When> color =
      Argument.option(
          "--color",
          "WHEN",
          When.class,
          "auto",
          "auto (default: on a terminal, unless NO_COLOR is set), always or never. For text only.");

  /** When to colour. */
  enum When {
    AUTO,
    ALWAYS,
    NEVER
  }

  OutputOptions() {
    this(
        Argument.option(
            "--format", "FORMAT", Format.class, "text", "text (default), json, csv or md."));
  }

  private OutputOptions(Argument<? extends Enum<?>> format) {
    this.format = format;
  }

  /** For a survey, which can be a page too. */
  static OutputOptions withPage() {
    return new OutputOptions(
        Argument.option(
            "--format",
            "FORMAT",
            SurveyFormat.class,
            "text",
            "text (default), json, csv, md, or html: a page for a browser, in one file."));
  }

  /** For a wiring, which can be a drawing too. */
  static OutputOptions withDrawing() {
    return new OutputOptions(
        Argument.option(
            "--format",
            "FORMAT",
            WiringFormat.class,
            "text",
            "text (default), json, csv, md, or svg: the package with its pins."));
  }

  void addTo(BaseCommand command) {
    command.take(format, file, color);
  }

  /** True where a page is asked for, which is none of the formats of every report. */
  boolean isPage() {
    return format.value() == SurveyFormat.HTML;
  }

  /** True where a drawing is asked for, which is none of the formats of every report. */
  boolean isDrawing() {
    return format.value() == WiringFormat.SVG;
  }

  Format format() {
    return Format.valueOf(format.value().name());
  }

  Optional<Path> file() {
    return file.ifGiven();
  }

  Style style(Surroundings around) {
    return new Style(columns(around), isColored(around));
  }

  private boolean isColored(Surroundings around) {
    return switch (color.value()) {
      case ALWAYS -> true;
      case NEVER -> false;
      case AUTO ->
          around.terminal()
              && file().isEmpty()
              && around.environment().getOrDefault("NO_COLOR", "").isEmpty();
    };
  }

  private static int columns(Surroundings around) {
    String columns = around.environment().getOrDefault("COLUMNS", "");
    if (!columns.matches("[0-9]{1,4}")) {
      return Style.COLUMNS;
    }
    return Math.max(Style.COLUMNS, Math.min(WIDEST, Integer.parseInt(columns)));
  }
}
