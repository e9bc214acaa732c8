package dev.ullage.emit;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs;
import dev.ullage.target.Package;
import dev.ullage.target.Pin;
import dev.ullage.target.Target;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** What the README of a firmware says. */
final class Readme {
  private final Firmware firmware;
  private final Loop loop;
  private final Target target;

  private Readme(Firmware firmware) {
    this.firmware = firmware;
    this.loop = firmware.loop();
    this.target = firmware.target();
  }

  /** All texts in it are escaped for Markdown. */
  static Map<String, Object> model(Firmware firmware, Budget budget) {
    Readme readme = new Readme(firmware);
    Map<String, Object> model = new HashMap<>();
    model.put("project", Escape.markdown(firmware.loop().name()));
    model.put("title", firmware.target().title());
    model.put("sentences", escaped(Description.of(firmware)));
    model.put("notes", escaped(readme.notes()));
    model.put("pins", readme.wires());
    model.put("pack", readme.target.packages().stream().map(Package::name).findFirst().orElse(""));
    model.put("budget", budget);
    model.put("parts", budget.parts().stream().map(Readme::row).toList());
    model.put("buffers", firmware.buffers().stream().map(Readme::row).toList());
    model.put("path", budget.stackPath().stream().map(Readme::row).toList());
    model.put("flash", firmware.target().flashBytes());
    model.put("ram", firmware.target().ramBytes());
    model.put("left", readme.left(budget));
    model.put("needs", firmware.target().toolchain().needs());
    model.put("knob", firmware.pins().containsKey(Role.KNOB));
    model.put("cautions", escaped(Cautions.of(firmware.loop(), readme.supply())));
    return model;
  }

  private BigDecimal supply() {
    return loop.board().supplyV().orElse(target.clock().supplyMax());
  }

  private String supplyWords() {
    return loop.board()
        .supplyV()
        .map(volts -> plain(volts) + " V")
        .orElseGet(
            () ->
                plain(target.clock().supplyFrom(firmware.clock().hz()))
                    + " V to "
                    + plain(target.clock().supplyMax())
                    + " V");
  }

  private static String plain(BigDecimal volts) {
    return volts.stripTrailingZeros().toPlainString();
  }

  private int left(Budget budget) {
    return target.ramBytes() - budget.figures().ramStatic() - budget.figures().stack();
  }

  private List<String> notes() {
    List<String> notes = new ArrayList<>(firmware.notes());
    notes.add("the bus is driven " + driver() + ": " + firmware.bus().why());
    return notes;
  }

  private String driver() {
    return switch (firmware.bus().driver()) {
      case POLLED -> "by the part's hardware, which the program waits for";
      case BUFFERED -> "by the part's hardware with interrupts and buffers";
      case BITBANG, AUTO -> "by the program";
    };
  }

  private static Map<String, Object> row(Budget.Part part) {
    return Map.of("name", Escape.markdown(part.name()), "flash", part.flash(), "ram", part.ram());
  }

  private static Map<String, Object> row(Buffer buffer) {
    return Map.of("name", Escape.markdown(buffer.name()), "bytes", buffer.bytes());
  }

  private static Map<String, Object> row(Budget.Step step) {
    return Map.of("name", Escape.markdown(step.function()), "bytes", step.bytes());
  }

  private static List<String> escaped(List<String> texts) {
    return texts.stream().map(Escape::markdown).toList();
  }

  /** One row for each wire: pin, its number in the first package, and what it leads to. */
  private List<Map<String, String>> wires() {
    List<Map<String, String>> wires = new ArrayList<>();
    for (Map.Entry<Role, Pin> pin : firmware.pins().entrySet()) {
      wires.add(wire(pin.getValue().name(), to(pin.getKey())));
    }
    // A capacitor beside the part is common practice, no source.
    wires.add(wire("VCC", supplyWords() + ", and 100 nF to ground"));
    if (hasPin("AVCC")) {
      wires.add(wire("AVCC", "the same supply, and 100 nF to ground"));
    }
    if (hasPin("AREF") && firmware.pins().containsKey(Role.KNOB)) {
      wires.add(wire("AREF", "100 nF to ground, and nothing else"));
    }
    wires.add(wire("GND", "ground"));
    return wires;
  }

  private boolean hasPin(String name) {
    return target.packages().stream().findFirst().stream()
        .anyMatch(pack -> pack.pins().contains(name));
  }

  private Map<String, String> wire(String pin, String to) {
    return Map.of("pin", pin, "number", number(pin), "to", Escape.markdown(to));
  }

  private String number(String pin) {
    List<String> pins = target.packages().stream().findFirst().map(Package::pins).orElse(List.of());
    return IntStream.range(0, pins.size())
        .filter(i -> pins.get(i).equals(pin))
        .mapToObj(i -> String.valueOf(i + 1))
        .collect(Collectors.joining(", "));
  }

  private String to(Role role) {
    return switch (role) {
      case SDA -> "data of the sensor, and " + loop.board().pullUpOhm() + " ohm to the supply";
      case SCL -> "clock of the sensor, and " + loop.board().pullUpOhm() + " ohm to the supply";
      case KNOB -> "middle of the potentiometer, whose ends go to ground and to the supply";
      case LAMP -> "lamp with its resistor, to " + other(lamp().active());
      case SOUNDER -> "sounder to ground, through a transistor if it takes more than the pin gives";
      case RELAY -> "input of the relay's driver, active " + word(relay().active());
      case MUTE -> "mute button to ground; the part pulls the pin up";
      case TRANSMIT -> "input of the receiver of the report";
    };
  }

  private Outputs.Lamp lamp() {
    return loop.outputs().lamp().orElseThrow();
  }

  private Outputs.Relay relay() {
    return loop.outputs().relay().orElseThrow();
  }

  private static String other(Outputs.Active active) {
    return active == Outputs.Active.HIGH ? "ground" : "the supply";
  }

  private static String word(Outputs.Active active) {
    return active == Outputs.Active.HIGH ? "high" : "low";
  }
}
