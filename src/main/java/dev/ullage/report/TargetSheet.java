package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.target.Clock;
import dev.ullage.target.Family;
import dev.ullage.target.Package;
import dev.ullage.target.Pin;
import dev.ullage.target.Route;
import dev.ullage.target.Target;
import dev.ullage.target.Timer;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** One target of the catalogue: what it has, and which pin can be what. */
public record TargetSheet(Target target) {

  /** The sheet as the format wants it, every line ended; for a spreadsheet the pins only. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> plain(style);
      case JSON -> json();
      case CSV -> Csv.of(pins());
      case MD ->
          "# " + target.title() + "\n\n" + Markdown.table(facts()) + "\n" + Markdown.table(pins());
    };
  }

  private String plain(Style style) {
    List<String> lines = new ArrayList<>(List.of(target.title(), ""));
    for (List<String> fact : facts().rows()) {
      String head = "%-18s ".formatted(fact.get(0));
      lines.addAll(Paragraph.lines(head, fact.get(1), style.columns()));
    }
    lines.add("");
    TextTable pins = new TextTable(pins(), style.columns());
    lines.addAll(pins.title());
    lines.addAll(pins.rows());
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private Table facts() {
    return new Table(
        List.of(left("what"), left("how much")),
        List.of(
            fact("name", target.name()),
            fact("family", target.family().name() + ", " + target.family().title()),
            fact("core", target.core()),
            fact(
                "flash",
                target.flashBytes() + (target.flashBeside() ? " B, a chip beside it" : " B")),
            fact("RAM", target.ramBytes() + " B"),
            fact("EEPROM", target.eepromBytes() + " B"),
            fact("vectors", target.vectors() + " of " + target.vectorBytes() + " B"),
            fact("stack pointer", target.stackPointerBits() + " bits"),
            fact("supply", Facts.supply(target) + " V"),
            fact("clock", clock(target.clock())),
            fact(
                target.clock().settings().containsKey(target.clock().factoryHz())
                    ? "unless told so"
                    : "as delivered",
                Facts.megahertz(target.clock().factoryHz()) + " MHz"),
            fact("two-wire bus", Facts.bus(target)),
            fact("timers", timers()),
            fact(
                "converter",
                target.family().converter().map(c -> c.bits() + " bits").orElse("none")),
            fact("serial port", target.family().serialPort().map(s -> s.name()).orElse("none")),
            fact("packages", join(target.packages().stream().map(Package::name)))));
  }

  private static List<String> fact(String what, String value) {
    return List.of(what, value);
  }

  private static String clock(Clock clock) {
    return join(
        clock.grades().stream()
            .map(
                grade ->
                    "up to %s MHz from %s V"
                        .formatted(Facts.megahertz(grade.maxHz()), grade.fromV().toPlainString())));
  }

  private String timers() {
    return join(
        target.family().timers().stream()
            .map((Timer timer) -> timer.name() + " (" + timer.bits() + " bits)"));
  }

  private static String join(Stream<String> parts) {
    String joined = parts.collect(Collectors.joining(", "));
    return joined.isEmpty() ? "none" : joined;
  }

  private Table pins() {
    List<Package> packages = target.packages();
    Stream<Table.Column> numbers = packages.stream().map(sold -> right(sold.name()));
    Stream<Table.Column> titles = Stream.of(left("pin"), left("analog"), left("also"));
    return new Table(Stream.concat(titles, numbers).toList(), bonded().map(this::pin).toList());
  }

  /** Pins that the part has in one of its packages at least. */
  private Stream<Pin> bonded() {
    return target.family().pins().values().stream()
        .filter(
            pin ->
                target.packages().isEmpty()
                    || target.packages().stream()
                        .anyMatch(sold -> sold.pins().contains(pin.name())));
  }

  /** What a pin can be besides, and which signals of the peripherals can be led to it. */
  private List<String> roles(Pin pin) {
    Family family = target.family();
    List<String> roles = new ArrayList<>(pin.roles());
    family.busPort().controller().ifPresent(c -> add(roles, pin, c.routes(), "sda", "scl"));
    family.serialPort().ifPresent(port -> add(roles, pin, port.routes(), "transmit"));
    family.timers().stream()
        .flatMap(timer -> timer.toggle().stream())
        .forEach(toggle -> add(roles, pin, toggle.routes(), "tone"));
    return roles;
  }

  private static void add(List<String> roles, Pin pin, List<Route> routes, String... signals) {
    for (Route route : routes) {
      int signal = route.pins().indexOf(pin.name());
      if (signal >= 0 && signal < signals.length && !roles.contains(signals[signal])) {
        roles.add(signals[signal]);
      }
    }
  }

  private List<String> pin(Pin pin) {
    String channel =
        pin.converterChannel().isPresent() ? "" + pin.converterChannel().getAsInt() : "-";
    List<String> roles = roles(pin);
    Stream<String> facts =
        Stream.of(pin.name(), channel, roles.isEmpty() ? "-" : String.join(" ", roles));
    Stream<String> numbers =
        target.packages().stream()
            .map(
                sold -> {
                  int index = sold.pins().indexOf(pin.name());
                  return index < 0 ? "-" : sold.number(index);
                });
    return Stream.concat(facts, numbers).toList();
  }

  private String json() {
    return Json.object(
        json -> {
          json.writeStringField("schema", "ullage/target/1");
          TargetList.writeFields(json, target);
          json.writeArrayFieldStart("pins");
          for (Pin pin : bonded().toList()) {
            json.writeStartObject();
            json.writeStringField("pin", pin.name());
            json.writeArrayFieldStart("roles");
            for (String role : roles(pin)) {
              json.writeString(role);
            }
            json.writeEndArray();
            json.writeEndObject();
          }
          json.writeEndArray();
        });
  }
}
