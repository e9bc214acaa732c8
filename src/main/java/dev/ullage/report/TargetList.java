package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.target.Package;
import dev.ullage.target.Target;
import java.io.IOException;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The catalogue, a line for each target. */
public record TargetList(List<Target> targets) {

  public TargetList {
    targets = List.copyOf(targets);
  }

  /** The list as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> plain(style);
      case JSON -> json();
      case CSV -> Csv.of(fields());
      case MD -> Markdown.table(cells());
    };
  }

  private String plain(Style style) {
    TextTable table = new TextTable(cells(), style.columns());
    String meaning =
        targets.size()
            + " targets. Memory in bytes. Two-wire is the hardware for the bus: TWI can lead it,"
            + " USI leaves half of the work to the program, what is addressed only cannot lead.";
    Stream<String> end =
        Stream.concat(Stream.of(""), Paragraph.lines("", meaning, style.columns()).stream());
    return Stream.of(table.title().stream(), table.rows().stream(), end)
        .flatMap(lines -> lines)
        .map(line -> line + "\n")
        .collect(Collectors.joining());
  }

  private Table cells() {
    return new Table(
        List.of(
            left("target"),
            left("family"),
            left("core"),
            right("flash"),
            right("RAM"),
            right("EEPROM"),
            right("volts"),
            right("MHz"),
            left("two-wire")),
        targets.stream()
            .map(
                target ->
                    List.of(
                        target.name(),
                        target.family().name(),
                        target.core(),
                        "" + target.flashBytes(),
                        "" + target.ramBytes(),
                        "" + target.eepromBytes(),
                        Facts.supply(target),
                        Facts.megahertz(target.clock().maxHz()),
                        Facts.bus(target)))
            .toList());
  }

  private Table fields() {
    return new Table(
        Stream.of(
                "target",
                "title",
                "family",
                "core",
                "flash",
                "ram",
                "eeprom",
                "vectors",
                "supply_min_v",
                "supply_max_v",
                "clock_max_hz",
                "two_wire",
                "packages")
            .map(Table.Column::left)
            .toList(),
        targets.stream()
            .map(
                target ->
                    List.of(
                        target.name(),
                        target.title(),
                        target.family().name(),
                        target.core(),
                        "" + target.flashBytes(),
                        "" + target.ramBytes(),
                        "" + target.eepromBytes(),
                        "" + target.vectors(),
                        target.clock().supplyMin().toPlainString(),
                        target.clock().supplyMax().toPlainString(),
                        "" + target.clock().maxHz(),
                        Style.word(target.family().busPort().kind()),
                        target.packages().stream()
                            .map(Package::name)
                            .collect(Collectors.joining(" "))))
            .toList());
  }

  private String json() {
    return Json.object(
        json -> {
          json.writeStringField("schema", "ullage/targets/1");
          json.writeArrayFieldStart("targets");
          for (Target target : targets) {
            json.writeStartObject();
            writeFields(json, target);
            json.writeEndObject();
          }
          json.writeEndArray();
        });
  }

  static void writeFields(JsonGenerator json, Target target) throws IOException {
    json.writeStringField("target", target.name());
    json.writeStringField("title", target.title());
    json.writeStringField("family", target.family().name());
    json.writeStringField("core", target.core());
    json.writeNumberField("flash", target.flashBytes());
    json.writeNumberField("ram", target.ramBytes());
    json.writeNumberField("eeprom", target.eepromBytes());
    json.writeNumberField("vectors", target.vectors());
    json.writeNumberField("supply_min_v", target.clock().supplyMin());
    json.writeNumberField("supply_max_v", target.clock().supplyMax());
    json.writeNumberField("clock_max_hz", target.clock().maxHz());
    json.writeStringField("two_wire", Style.word(target.family().busPort().kind()));
    json.writeArrayFieldStart("packages");
    for (Package sold : target.packages()) {
      json.writeString(sold.name());
    }
    json.writeEndArray();
  }
}
