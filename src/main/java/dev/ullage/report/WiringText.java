package dev.ullage.report;

import dev.ullage.input.Printable;
import dev.ullage.wiring.Remark;
import dev.ullage.wiring.Wiring;

/** The wiring for a person: what is wrong first, then the drawing, then the figures. */
final class WiringText {
  private final WiringReport report;
  private final Wiring wiring;
  private final Style style;
  private final TextPage page;

  WiringText(WiringReport report, Style style) {
    this.report = report;
    this.wiring = report.wiring();
    this.style = style;
    this.page = new TextPage(style);
  }

  String text() {
    page.prose(
        "",
        Printable.of(wiring.plan().loop().name())
            + " on "
            + wiring.plan().target().title()
            + " in "
            + report.pins().pack()
            + ":");
    addRemarks();
    page.gap();
    page.lines(new PackageDrawing(report.pins()).lines(style.columns()));
    page.section(WiringTables.pins(report.pins()));
    page.section(WiringTables.bus(wiring));
    page.section(WiringTables.dividers(wiring));
    page.section(WiringTables.currents(wiring));
    page.gap();
    WiringTables.assumptions(wiring).forEach(line -> page.prose("", line + "."));
    page.section(WiringTables.parts(wiring));
    page.gap();
    WiringTables.cautions(wiring).forEach(caution -> page.prose("", caution));
    return page.text();
  }

  private void addRemarks() {
    page.gap();
    if (wiring.remarks().isEmpty()) {
      page.prose("", "Nothing stands against it.");
    }
    for (Remark remark : wiring.remarks()) {
      page.prose(remark.weight().word() + ": ", remark.text() + ".");
    }
  }
}
