package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;

import dev.ullage.target.ListedPart;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** One part that has no port: its limits, and who says so. */
public record ListedSheet(ListedPart part) {
  private static final String MEANING =
      "Listed only: these limits are all that is known. There is no port for the part yet, so"
          + " nothing is estimated or emitted for it. A fact with one source is not confirmed;"
          + " targets/SOURCES.md says what the sources are.";

  /** The sheet as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> plain(style);
      case JSON -> json();
      case CSV -> Csv.of(facts());
      case MD ->
          "# %s\n\n%s\n%s\n"
              .formatted(part.title(), Markdown.table(facts()), Markdown.text(MEANING));
    };
  }

  private String plain(Style style) {
    List<String> lines = new ArrayList<>(List.of(part.title(), ""));
    TextTable table = new TextTable(facts(), style.columns());
    lines.addAll(table.title());
    lines.addAll(table.rows());
    lines.add("");
    lines.addAll(Paragraph.lines("", MEANING, style.columns()));
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private Table facts() {
    return new Table(
        List.of(left("what"), left("how much"), left("source")),
        List.of(
            fact("name", part.name(), ""),
            fact("family", part.familyName() + ", " + part.familyTitle(), ""),
            fact("core", part.core(), "core"),
            fact("flash", flash(), "flash"),
            fact("RAM", part.ram() + " B", "ram"),
            fact("EEPROM", eeprom(), "eeprom"),
            fact("supply", Facts.supply(part) + " V", "clock"),
            fact("clock", "up to " + Facts.clock(part) + " MHz", "clock"),
            fact("two-wire bus", Facts.bus(part), "two_wire"),
            fact("packages", packages(), "packages")));
  }

  private List<String> fact(String what, String value, String key) {
    return List.of(what, value, part.sources().getOrDefault(key, "").replace(" ", ", "));
  }

  private String flash() {
    return part.flash().isPresent()
        ? part.flash().getAsInt() + " B"
        : "none of its own: a chip beside it";
  }

  private String eeprom() {
    return part.eeprom().isPresent() ? Facts.eeprom(part) + " B" : Facts.UNKNOWN;
  }

  private String packages() {
    return part.packageNames().isEmpty() ? Facts.UNKNOWN : String.join(", ", part.packageNames());
  }

  private String json() {
    return Json.object(
        json -> {
          json.writeStringField("schema", "ullage/target/1");
          TargetList.writeFields(json, part);
          json.writeArrayFieldStart("pins");
          json.writeEndArray();
          json.writeObjectFieldStart("sources");
          for (Map.Entry<String, String> each : new TreeMap<>(part.sources()).entrySet()) {
            json.writeArrayFieldStart(each.getKey());
            for (String source : each.getValue().split(" ")) {
              json.writeString(source);
            }
            json.writeEndArray();
          }
          json.writeEndObject();
        });
  }
}
