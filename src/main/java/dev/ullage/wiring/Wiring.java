package dev.ullage.wiring;

import dev.ullage.firmware.BusMode;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.target.Electrical;
import dev.ullage.target.Pin;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What has to be soldered around a part, and whether it will work.
 *
 * @param pins of the package that is soldered, with what leads to them
 * @param electrical what is known of the part's pins; empty where nothing is
 * @param mode of the bus
 * @param remarks what is wrong, may be wrong, or is worth knowing; the worst first
 */
public record Wiring(
    Firmware plan,
    PinMap pins,
    Optional<Electrical> electrical,
    BusMode mode,
    Levels levels,
    PullUps pullUps,
    Transaction transaction,
    List<Divider> dividers,
    Currents currents,
    List<PartsList.Item> parts,
    List<Remark> remarks) {

  // SMBus, ST RM0360 Rev 5, sections 22.4.12 and 22.4.13.
  private static final Map<Integer, String> SPOKEN_FOR =
      Map.of(
          0x08, "the SMBus host",
          0x0C, "the SMBus alert response",
          0x61, "the SMBus default address");

  public Wiring {
    dividers = List.copyOf(dividers);
    parts = List.copyOf(parts);
    remarks = List.copyOf(remarks);
  }

  /**
   * Works everything out.
   *
   * @param map the package that is soldered
   */
  public static Wiring of(Firmware plan, PinMap map) {
    Optional<Electrical> electrical = Electrical.of(plan.target().familyName());
    BusMode mode = BusMode.of(plan.loop().sensor().speedHz());
    Levels levels = Levels.of(plan, electrical);
    PullUps pullUps =
        PullUps.of(
            levels.busV(),
            mode,
            plan.loop().board().pullUpOhm(),
            plan.loop().board().busCapacitancePf());
    Transaction transaction = Transaction.of(plan);
    Currents currents = Currents.of(plan, levels.supplyV(), electrical, pullUps, transaction);
    PinMap pins = map.with(pin -> currents.exact(busLine(pin, levels, pullUps)));
    Wiring bare =
        new Wiring(
            plan,
            pins,
            electrical,
            mode,
            levels,
            pullUps,
            transaction,
            Divider.of(plan),
            currents,
            PartsList.of(plan, pins, pullUps, levels, currents),
            List.of());
    return bare.judged();
  }

  /** A pin of the bus, with the resistor that is bought for it; any other as it is. */
  private static PinUse busLine(PinUse pin, Levels levels, PullUps pullUps) {
    Optional<String> line =
        pin.role().map(role -> role == Role.SDA ? "data" : role == Role.SCL ? "clock" : null);
    String ohm = ", and " + Figures.ohm(pullUps.toBuy()) + " to ";
    return line.map(
            it ->
                levels.needsShifter()
                    ? "level shifter of the " + it + ohm + Figures.volts(levels.supplyV())
                    : it + " of the sensor" + ohm + Figures.volts(levels.busV()))
        .map(pin::leadingTo)
        .orElse(pin);
  }

  private Wiring judged() {
    List<Remark> all = new ArrayList<>();
    addPullUps(all);
    addTime(all);
    addAddress(all);
    all.addAll(levels.remarks(plan));
    all.addAll(currents.remarks(plan, levels.supplyV(), electrical));
    addPins(all);
    addPackage(all);
    all.sort(java.util.Comparator.comparing(Remark::weight));
    return new Wiring(
        plan, pins, electrical, mode, levels, pullUps, transaction, dividers, currents, parts, all);
  }

  /** True where nothing keeps the board from working. */
  public boolean works() {
    return remarks.stream().noneMatch(remark -> remark.weight() == Remark.Weight.FAULT);
  }

  private void addPullUps(List<Remark> all) {
    int pf = plan.loop().board().busCapacitancePf();
    if (pf > BusMode.MOST_PF) {
      all.add(
          Remark.warning(
              "the bus lines have "
                  + pf
                  + " pF, and "
                  + BusMode.MOST_PF
                  + " pF is the most of "
                  + mode.title()));
    }
    String instead =
        pullUps.instead().map(ohm -> ": take " + Figures.ohm(ohm)).orElse(": no value will do");
    switch (pullUps.verdict()) {
      case GOOD -> {}
      case TOO_LOW ->
          all.add(
              Remark.fault(
                  "pull-ups of "
                      + Figures.ohm(pullUps.ohm())
                      + " are below the least, "
                      + Figures.ohm(pullUps.least())
                      + instead));
      case TOO_HIGH ->
          all.add(
              Remark.fault(
                  "with pull-ups of "
                      + Figures.ohm(pullUps.ohm())
                      + " the lines rise in "
                      + Figures.digits(pullUps.riseNs())
                      + " ns, and "
                      + pullUps.mostRiseNs()
                      + " ns is the most of "
                      + mode.title()
                      + instead));
      case NO_VALUE ->
          all.add(
              Remark.fault(
                  "no pull-up will do: the levels need "
                      + Figures.ohm(pullUps.least())
                      + " or more, and the rise "
                      + Figures.ohm(pullUps.most())
                      + " or less; make the lines shorter or the bus slower"));
    }
  }

  private void addTime(List<Remark> all) {
    String share = Figures.percent(transaction.share()) + " of the period";
    switch (transaction.verdict()) {
      case GOOD -> {}
      case HIGH -> all.add(Remark.warning("a reading takes " + share));
      case TOO_LONG -> all.add(Remark.fault("a reading takes " + share));
    }
  }

  private void addAddress(List<Remark> all) {
    String use = SPOKEN_FOR.get(plan.loop().sensor().address());
    if (use != null) {
      all.add(
          Remark.note(
              String.format(
                  "address 0x%02X is %s: keep SMBus parts off this bus",
                  plan.loop().sensor().address(), use)));
    }
  }

  private void addPins(List<Remark> all) {
    for (Map.Entry<Role, Pin> pin : plan.pins().entrySet()) {
      for (String use : List.of("reset", "debug", "crystal", "clock-in")) {
        boolean asked = plan.loop().board().pins().containsKey(pin.getKey());
        if (asked && pin.getValue().roles().contains(use)) {
          all.add(
              use.equals("reset") || use.equals("debug")
                  ? Remark.warning(pin.getValue().name() + onUse(pin.getKey(), use))
                  : Remark.note(pin.getValue().name() + onUse(pin.getKey(), use)));
        }
      }
    }
  }

  private void addPackage(List<Remark> all) {
    for (Role role : pins.missing()) {
      all.add(
          Remark.fault(
              pins.pack()
                  + " does not lead out "
                  + plan.pins().get(role).name()
                  + ", the pin of "
                  + word(role)
                  + ": name another one in board.pins, or take another package"));
    }
    BootPin.of(plan.target().family().pins().values(), pins.names())
        .ifPresent(
            boot ->
                plan.pins().entrySet().stream()
                    .filter(pin -> pin.getValue().name().equals(boot.pin().name()))
                    .forEach(pin -> all.add(Remark.note(onBoot(boot, pin.getKey())))));
    List<String> unknown =
        pins.pins().stream()
            .filter(pin -> pin.label().equals(Terminals.IN_THE_DATA_SHEET))
            .map(PinUse::name)
            .distinct()
            .toList();
    if (!unknown.isEmpty()) {
      all.add(
          Remark.note(
              "what has to be at "
                  + String.join(" and ", unknown)
                  + " is in the data sheet only, and not in the list of parts"));
    }
  }

  private static String onBoot(BootPin boot, Role role) {
    return boot.pin().name()
        + ", the pin of "
        + word(role)
        + ", also chooses what is started: what is soldered to it must leave it "
        + boot.level()
        + " at a reset";
  }

  private static String word(Role role) {
    return role.name().toLowerCase(java.util.Locale.ROOT);
  }

  private static String onUse(Role role, String use) {
    String why =
        switch (use) {
          case "reset" ->
              "the reset pin: once it is a plain pin, the part is programmed with high"
                  + " voltage only";
          case "debug" -> "a pin of the programmer: it cannot be attached while the pin is driven";
          default -> "a pin of the crystal: it is free with an internal clock only";
        };
    return ", which the loop file gives to " + word(role) + ", is " + why;
  }
}
