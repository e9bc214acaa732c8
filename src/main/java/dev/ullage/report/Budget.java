package dev.ullage.report;

import dev.ullage.loop.Loop;

/** What one loop comes to on one target, byte by byte. */
public record Budget(Loop loop, Assessment assessment) {

  /** The budget as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> new BudgetText(this, style).text();
      case JSON -> BudgetJson.of(this);
      case CSV -> Csv.of(BudgetTables.parts(this));
      case MD -> BudgetTables.markdown(this);
    };
  }

  /** Flash that must stay free, in bytes: a share of what the part has itself. */
  int flashMargin() {
    return loop.margin().flashBytes(assessment.target().flash().orElse(0));
  }

  /** RAM that the user's own code takes, its stack included, in bytes. */
  int broughtRam() {
    return loop.bring().ramBytes() + loop.bring().stackBytes();
  }
}
