package dev.ullage.cli;

import dev.ullage.report.Format;
import dev.ullage.report.Style;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** How a report is written, and where to. */
final class OutputOptions {
  private static final int WIDEST = 240;

  @Option(
      names = "--format",
      paramLabel = "FORMAT",
      defaultValue = "text",
      description = "text (default), json, csv or md.")
  Format format = Format.TEXT;

  @Option(
      names = {"-o", "--output"},
      paramLabel = "FILE",
      description = "Write to this file, all or nothing, instead of printing.")
  private @Nullable Path file;

  @Option(
      names = "--color",
      paramLabel = "WHEN",
      defaultValue = "auto",
      description =
          "auto (default: on a terminal, unless NO_COLOR is set), always or never. For text only.")
  private When color = When.AUTO;

  /** When to colour. */
  enum When {
    AUTO,
    ALWAYS,
    NEVER
  }

  Optional<Path> file() {
    return Optional.ofNullable(file);
  }

  Style style(Surroundings around) {
    return new Style(columns(around), isColored(around));
  }

  private boolean isColored(Surroundings around) {
    return switch (color) {
      case ALWAYS -> true;
      case NEVER -> false;
      case AUTO ->
          around.terminal()
              && file == null
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
