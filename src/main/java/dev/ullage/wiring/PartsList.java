package dev.ullage.wiring;

import dev.ullage.firmware.Clocking;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Circuit;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** What to buy. */
public final class PartsList {
  // USB 2.0 specification, section 7.2.2: a port may give as little as 4.40 V.
  private static final double LEAST_USB_V = 4.4;
  private static final double RESISTOR_MW = 250;

  private final Firmware plan;
  private final PinMap pins;
  private final PullUps pullUps;
  private final Levels levels;
  private final Currents currents;
  private final List<Item> items = new ArrayList<>();

  /**
   * One line of the list.
   *
   * @param what the kind of part
   * @param value what tells it from others of its kind
   * @param why what it is there for
   */
  public record Item(int quantity, String what, String value, String why) {}

  private PartsList(Firmware plan, PinMap pins, PullUps pullUps, Levels levels, Currents currents) {
    this.plan = plan;
    this.pins = pins;
    this.pullUps = pullUps;
    this.levels = levels;
    this.currents = currents;
  }

  static List<Item> of(
      Firmware plan, PinMap pins, PullUps pullUps, Levels levels, Currents currents) {
    PartsList list = new PartsList(plan, pins, pullUps, levels, currents);
    list.addPart();
    list.addBus();
    list.addLamp();
    currents.drives().forEach(list::addDrive);
    list.addRest();
    return List.copyOf(list.items);
  }

  private void add(int quantity, String what, String value, String why) {
    items.add(new Item(quantity, what, value, why));
  }

  private void addPart() {
    add(1, "microcontroller", plan.target().title() + " in " + pins.pack(), "runs the loop");
    addCapacitors("100 nF");
    addCapacitors("1 uF");
    if (plan.target().flashBeside()) {
      add(1, "serial flash", plan.target().flashBytes() / 1024 + " KiB", "program memory");
    }
    if (plan.clock().source() == Clocking.Source.OUTSIDE) {
      addCrystal(plan.clock().hz(), "the part's clock; fuses choose it");
    } else if (plan.clock().source() == Clocking.Source.CRYSTAL) {
      addCrystal(plan.target().clock().factoryHz(), "the part's clock");
    }
  }

  private void addCrystal(long hz, String why) {
    add(1, "crystal", Clocking.megahertz(hz), why);
    add(2, "ceramic capacitor", "as the crystal's maker says", "from the crystal to ground");
  }

  /** One for each pin that leads to one. */
  private void addCapacitors(String value) {
    List<String> names =
        pins.pins().stream()
            .filter(pin -> pin.leadsTo().contains(value))
            .map(PinUse::name)
            .toList();
    if (!names.isEmpty()) {
      String which = names.stream().distinct().collect(Collectors.joining(", "));
      add(names.size(), "ceramic capacitor", value, "from " + which + " to ground, beside the pin");
    }
  }

  private void addBus() {
    add(1, "sensor", String.format("two-wire, address 0x%02X", address()), "the reading");
    add(
        levels.needsShifter() ? 4 : 2,
        "resistor",
        Figures.ohm(pullUps.toBuy()),
        levels.needsShifter()
            ? "pull-ups of both bus lines, on both sides of the level shifter"
            : "pull-ups of both bus lines, to " + Figures.volts(levels.busV()));
    if (levels.needsShifter()) {
      // The circuit of two transistors is in NXP AN10441 (from memory).
      add(2, "N-channel MOSFET", "opens at logic levels", "level shifter of both bus lines");
    }
  }

  private int address() {
    return plan.loop().sensor().address();
  }

  private void addLamp() {
    currents
        .lamp()
        .ifPresent(
            resistor -> {
              Circuit circuit = plan.loop().board().circuit();
              add(1, "LED", Figures.volts(circuit.lampV().doubleValue()) + " forward", "the lamp");
              add(
                  1,
                  "resistor",
                  Figures.ohm(resistor.ohm()) + heat(resistor.mw()),
                  "in series with the lamp: " + Figures.milliamperes(resistor.ma()));
            });
  }

  private static String heat(double mw) {
    return mw > RESISTOR_MW / 2 ? ", for " + Figures.digits(2 * mw) + " mW or more" : "";
  }

  private void addDrive(OutputDrive drive) {
    switch (drive.role()) {
      case SOUNDER ->
          add(
              1,
              "sounder",
              Figures.milliamperes(plan.loop().board().circuit().sounderMa().doubleValue())
                  + plan.tone().map(t -> ", passive").orElse(", with its own tone"),
              "the alarm");
      case RELAY ->
          add(
              1,
              "relay",
              "coil for "
                  + Figures.volts(levels.supplyV())
                  + ", "
                  + Figures.milliamperes(drive.ma()),
              "switches what its contacts are rated for");
      case LAMP, SDA, SCL, KNOB, MUTE, TRANSMIT -> {}
    }
    if (drive.transistor()) {
      String role = drive.role().name().toLowerCase(java.util.Locale.ROOT);
      add(
          1,
          drive.kind() + " transistor",
          "small, for " + Figures.milliamperes(2 * drive.ma()) + " or more",
          "drives the " + role);
      add(1, "resistor", Figures.ohm(drive.baseOhm()), "to the base of that transistor");
      if (drive.role() != Role.LAMP) {
        add(1, "diode", "small, fast", "across the " + role + ", for its kick when it goes off");
      }
    }
  }

  private void addRest() {
    if (plan.pins().containsKey(Role.KNOB)) {
      add(1, "potentiometer", "10 kohm, linear", "the knob");
      add(1, "ceramic capacitor", "100 nF", "from its wiper to ground, against noise");
    }
    if (plan.pins().containsKey(Role.MUTE)) {
      add(1, "push button", "makes contact", "silences the alarm");
    }
    switch (plan.loop().board().circuit().supply()) {
      case COIN_CELL -> add(1, "coin cell", "3 V, with its holder", "feeds the board");
      case BATTERY -> add(1, "battery", Figures.volts(levels.supplyV()), "feeds the board");
      case USB -> {
        if (levels.supplyV() < LEAST_USB_V) {
          add(
              1,
              "voltage regulator",
              "5 V to " + Figures.volts(levels.supplyV()),
              "feeds the board");
        }
      }
      case BENCH -> {}
    }
  }
}
