package dev.ullage.report;

import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.Wiring;

/** What has to be soldered around a part. */
public record WiringReport(Wiring wiring) {

  /** Of the package that is soldered. */
  PinMap pins() {
    return wiring.pins();
  }

  /** The report as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> new WiringText(this, style).text();
      case JSON -> WiringJson.of(this);
      case CSV -> Csv.of(WiringTables.parts(wiring));
      case MD -> WiringTables.markdown(this);
    };
  }

  /** The package with its pins, as an SVG document. */
  public String drawing() {
    return new PackageDrawing(pins()).svg();
  }
}
