package dev.ullage.report;

import dev.ullage.firmware.Firmware;
import java.util.Optional;

/**
 * What one loop comes to on one target, byte by byte.
 *
 * @param loop its name, as the user wrote it
 * @param margin what must stay free, in bytes
 * @param plan empty where nothing could be planned
 */
public record Budget(String loop, Assessment assessment, Margin margin, Optional<Firmware> plan) {

  /** Bytes that must stay free. */
  public record Margin(int flash, int ram) {}

  /** The budget as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> new BudgetText(this, style).text();
      case JSON -> BudgetJson.of(this);
      case CSV -> Csv.of(BudgetTables.parts(this));
      case MD -> BudgetTables.markdown(this);
    };
  }
}
