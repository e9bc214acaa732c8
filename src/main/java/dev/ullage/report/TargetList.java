package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.target.ListedPart;
import dev.ullage.target.Part;
import dev.ullage.target.Target;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The catalogue, a line for each part: first those with a port, then those that are listed only.
 */
public record TargetList(List<Part> parts) {

  public TargetList {
    parts = List.copyOf(parts);
  }

  /** The list as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> plain(style);
      case JSON -> json();
      case CSV -> Csv.of(fields());
      case MD -> markdown();
    };
  }

  private String plain(Style style) {
    String meaning =
        targets().size()
            + (targets().size() == 1 ? " target." : " targets.")
            + " Memory in bytes. Two-wire is the hardware for the bus: TWI can lead it,"
            + " USI leaves half of the work to the program, addr. can only be addressed.";
    List<String> lines = new ArrayList<>();
    if (!targets().isEmpty() || listed().isEmpty()) {
      lines.addAll(lines(cells(), style));
      lines.add("");
      lines.addAll(Paragraph.lines("", meaning, style.columns()));
    }
    if (!listed().isEmpty()) {
      lines.addAll(lines.isEmpty() ? List.of() : List.of(""));
      lines.addAll(lines(listedCells(), style));
      lines.add("");
      lines.addAll(Paragraph.lines("", listedMeaning(), style.columns()));
    }
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private static List<String> lines(Table table, Style style) {
    TextTable text = new TextTable(table, style.columns());
    return Stream.concat(text.title().stream(), text.rows().stream()).toList();
  }

  private String listedMeaning() {
    return listed().size()
        + (targets().isEmpty() ? " parts" : " more")
        + " are listed only: their limits are known, but they have no port yet, so nothing is"
        + " estimated or emitted for them. K is 1024 bytes, M is 1024 K, ? is not known, - is a"
        + " memory beside the part; shared is a serial block that can lead the bus or be a serial"
        + " port.";
  }

  private String markdown() {
    String page = Markdown.table(cells());
    return listed().isEmpty()
        ? page
        : page + "\n" + Markdown.text(listedMeaning()) + "\n\n" + Markdown.table(listedCells());
  }

  private List<Target> targets() {
    return parts.stream().filter(Target.class::isInstance).map(Target.class::cast).toList();
  }

  private List<Part> listed() {
    return parts.stream().filter(ListedPart.class::isInstance).toList();
  }

  private Table cells() {
    return new Table(
        List.of(
            left("target"),
            left("family"),
            left("core"),
            right("flash"),
            right("RAM"),
            right("EE-\nPROM"),
            right("volts"),
            right("MHz"),
            left("two-\nwire")),
        targets().stream()
            .map(
                target ->
                    List.of(
                        target.name(),
                        target.familyName(),
                        target.core(),
                        Facts.capacity(target.flash()),
                        Facts.capacity(OptionalInt.of(target.ramBytes())),
                        Facts.capacity(target.eeprom()),
                        Facts.supply(target),
                        Facts.clock(target),
                        Facts.bus(target)))
            .toList());
  }

  private Table listedCells() {
    return new Table(
        List.of(
            left("listed"),
            left("family"),
            left("core"),
            right("flash"),
            right("RAM"),
            right("EEPROM"),
            right("volts"),
            right("MHz"),
            left("two-\nwire")),
        listed().stream()
            .map(
                part ->
                    List.of(
                        part.name(),
                        part.familyName(),
                        part.core(),
                        Facts.capacity(part.flash()),
                        Facts.capacity(OptionalInt.of(part.ram())),
                        part.eeprom().isPresent() ? Facts.capacity(part.eeprom()) : Facts.UNKNOWN,
                        Facts.supply(part),
                        Facts.clock(part),
                        Facts.bus(part)))
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
                "packages",
                "listed_only")
            .map(Table.Column::left)
            .toList(),
        parts.stream().map(TargetList::fields).toList());
  }

  /** What is not known is empty. */
  private static List<String> fields(Part part) {
    return List.of(
        part.name(),
        part.title(),
        part.familyName(),
        part.core(),
        number(part.flash()),
        "" + part.ram(),
        number(part.eeprom()),
        number(vectors(part)),
        part.rating().map(rating -> rating.supplyMin().toPlainString()).orElse(""),
        part.rating().map(rating -> rating.supplyMax().toPlainString()).orElse(""),
        part.rating().map(rating -> "" + rating.maxHz()).orElse(""),
        part.busKind().map(Style::word).orElse(""),
        String.join(" ", part.packageNames()),
        "" + (part instanceof ListedPart));
  }

  private static String number(OptionalInt value) {
    return value.isPresent() ? "" + value.getAsInt() : "";
  }

  private static OptionalInt vectors(Part part) {
    return part instanceof Target target ? OptionalInt.of(target.vectors()) : OptionalInt.empty();
  }

  private String json() {
    return Json.object(
        json -> {
          json.writeStringField("schema", "ullage/targets/1");
          json.writeArrayFieldStart("targets");
          for (Part part : parts) {
            json.writeStartObject();
            writeFields(json, part);
            json.writeEndObject();
          }
          json.writeEndArray();
        });
  }

  /** What is not known is null. */
  static void writeFields(JsonGenerator json, Part part) throws IOException {
    json.writeStringField("target", part.name());
    json.writeStringField("title", part.title());
    json.writeStringField("family", part.familyName());
    json.writeStringField("core", part.core());
    write(json, "flash", part.flash());
    json.writeNumberField("ram", part.ram());
    write(json, "eeprom", part.eeprom());
    write(json, "vectors", vectors(part));
    write(json, "supply_min_v", part.rating().map(rating -> rating.supplyMin()));
    write(json, "supply_max_v", part.rating().map(rating -> rating.supplyMax()));
    write(json, "clock_max_hz", part.rating().map(rating -> BigDecimal.valueOf(rating.maxHz())));
    json.writeStringField("two_wire", part.busKind().map(Style::word).orElse(null));
    json.writeArrayFieldStart("packages");
    for (String sold : part.packageNames()) {
      json.writeString(sold);
    }
    json.writeEndArray();
    json.writeBooleanField("listed_only", part instanceof ListedPart);
  }

  private static void write(JsonGenerator json, String field, OptionalInt value)
      throws IOException {
    write(
        json,
        field,
        value.isPresent() ? Optional.of(BigDecimal.valueOf(value.getAsInt())) : Optional.empty());
  }

  private static void write(JsonGenerator json, String field, Optional<BigDecimal> value)
      throws IOException {
    if (value.isPresent()) {
      json.writeNumberField(field, value.get());
    } else {
      json.writeNullField(field);
    }
  }
}
