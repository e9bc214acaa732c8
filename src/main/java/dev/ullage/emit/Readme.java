package dev.ullage.emit;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Clocking;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Loop;
import dev.ullage.target.Target;
import dev.ullage.wiring.WiringTable;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

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
    readme.addWiring(model);
    model.put("budget", budget);
    model.put("parts", budget.parts().stream().map(Readme::row).toList());
    model.put("buffers", firmware.buffers().stream().map(Readme::row).toList());
    model.put("path", budget.stackPath().stream().map(Readme::row).toList());
    model.put("flash", firmware.target().flashBytes());
    model.put("ram", firmware.target().ramBytes());
    model.put("left", readme.left(budget));
    model.put("target", firmware.target().name());
    model.put("bench", escaped(BenchSteps.of(firmware.loop())));
    model.put("needs", firmware.target().toolchain().needs());
    model.put("knob", firmware.pins().containsKey(Role.KNOB));
    model.put("cautions", escaped(Cautions.of(firmware.loop(), readme.supply())));
    return model;
  }

  private BigDecimal supply() {
    return Clocking.supplyV(loop.board(), target.clock());
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

  private void addWiring(Map<String, Object> model) {
    WiringTable table = WiringTable.of(firmware);
    model.put("packages", table.packages());
    model.put("pins", table.rows().stream().map(Readme::row).toList());
    model.put("free", table.free());
    model.put("padded", table.padded());
  }

  private static Map<String, Object> row(WiringTable.Row row) {
    return Map.of(
        "pin", Escape.markdown(row.use().name()),
        "numbers", row.numbers(),
        "to", Escape.markdown(row.use().words()));
  }
}
