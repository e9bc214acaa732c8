package dev.ullage.wiring;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Circuit;
import dev.ullage.target.Electrical;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What flows where.
 *
 * @param lamp the lamp's resistor; empty without a lamp, or where the supply is too low for it
 * @param drives how the outputs are driven
 * @param takers everything that takes current
 * @param pinMa what a pin gives with its levels kept; empty where it is not known
 * @param supply what feeds the board, and what that can give
 * @param battery how long a battery lasts; empty where there is none, or too little is known
 */
public record Currents(
    Optional<Resistor> lamp,
    List<OutputDrive> drives,
    List<Taker> takers,
    Optional<Double> pinMa,
    Feed supply,
    Optional<Battery> battery) {

  /** The usual potentiometer (common practice, no source). */
  static final double KNOB_OHM = 10_000;

  /** A fresh lithium cell of 3 V (common practice, no source). */
  private static final double FULL_COIN_CELL_V = 3.3;

  public Currents {
    drives = List.copyOf(drives);
    takers = List.copyOf(takers);
  }

  /**
   * Something that takes current.
   *
   * @param alarmMa while the alarm is on, in mA
   * @param restMa on the average while it is off, in mA
   * @param why where the numbers come from
   */
  public record Taker(String name, double alarmMa, double restMa, String why) {}

  /**
   * What feeds the board.
   *
   * @param mostMa what it can give all the time; empty for whatever is asked
   * @param pulseMa what it can give for a moment
   */
  public record Feed(
      Circuit.Supply kind, Optional<Double> mostMa, Optional<Double> pulseMa, String source) {

    // USB 2.0 specification, section 7.2.1: one unit load before configuration. The coin cell is a
    // CR2032 of a maker's summary: 3 mA for long, 15 mA for a moment.
    static Feed of(Circuit.Supply kind) {
      return switch (kind) {
        case USB -> new Feed(kind, Optional.of(100.0), Optional.empty(), "USB 2.0, section 7.2.1");
        case COIN_CELL ->
            new Feed(kind, Optional.of(3.0), Optional.of(15.0), "a CR2032, maker's summary");
        case BENCH, BATTERY -> new Feed(kind, Optional.empty(), Optional.empty(), "");
      };
    }
  }

  /**
   * How long a battery lasts while there is no alarm.
   *
   * @param mah what it holds
   * @param ma what is taken on the average
   */
  public record Battery(double mah, double ma) {
    /** Nothing taken off for self-discharge, cold or a voltage that falls too low. */
    public double hours() {
      return mah / ma;
    }
  }

  static Currents of(
      Firmware plan,
      double supplyV,
      Optional<Electrical> electrical,
      PullUps pullUps,
      Transaction transaction) {
    return new CurrentSums(plan, supplyV, electrical, pullUps, transaction).currents();
  }

  /** All takers together while the alarm is on, in mA. */
  public double alarmMa() {
    return takers.stream().mapToDouble(Taker::alarmMa).sum();
  }

  /** What the pins of the outputs give together, in mA. */
  public double pinsMa(double supplyV) {
    return drives.stream().mapToDouble(drive -> drive.pinMa(supplyV)).sum();
  }

  /** All takers together on the average while it is off, in mA. */
  public double restMa() {
    return takers.stream().mapToDouble(Taker::restMa).sum();
  }

  /** The pin of an output, with the resistor beside it; any other as it is. */
  PinUse exact(PinUse pin) {
    return drives.stream()
        .filter(drive -> pin.role().filter(role -> role == drive.role()).isPresent())
        .findFirst()
        .map(drive -> pin.leadingTo(words(drive)))
        .orElse(pin);
  }

  private static String words(Circuit.Supply kind) {
    return switch (kind) {
      case BENCH -> "the bench supply";
      case USB -> "a USB port";
      case COIN_CELL -> "a coin cell";
      case BATTERY -> "the battery";
    };
  }

  private String words(OutputDrive drive) {
    String name = drive.role().name().toLowerCase(Locale.ROOT);
    if (drive.transistor()) {
      return Figures.ohm(drive.baseOhm()) + " to the base of the transistor of the " + name;
    }
    String through =
        drive.role() == Role.LAMP ? " through " + Figures.ohm(lamp.orElseThrow().ohm()) : "";
    return name + through + ", to " + (drive.high() ? "ground" : "the supply");
  }

  Currents with(Optional<Battery> known) {
    return new Currents(lamp, drives, takers, pinMa, supply, known);
  }

  /** What is wrong, or worth knowing. */
  List<Remark> remarks(Firmware plan, double supplyV, Optional<Electrical> electrical) {
    List<Remark> remarks = new ArrayList<>();
    if (plan.loop().outputs().lamp().isPresent() && lamp.isEmpty()) {
      remarks.add(
          Remark.fault(
              "the lamp needs "
                  + Figures.volts(plan.loop().board().circuit().lampV().doubleValue())
                  + " and the supply has "
                  + Figures.volts(supplyV)));
    }
    if (electrical.isEmpty()) {
      remarks.add(
          Remark.warning(
              "what the part's pins carry is not known here: every output gets a transistor, and"
                  + " the sum lacks the part"));
    }
    drives.stream()
        .filter(drive -> drive.starves(supplyV))
        .forEach(
            drive ->
                remarks.add(
                    Remark.warning(
                        "the pin of "
                            + drive.role().name().toLowerCase(Locale.ROOT)
                            + " gives a transistor for "
                            + Figures.milliamperes(drive.ma())
                            + " only "
                            + Figures.milliamperes(drive.pinMa(supplyV))
                            + ": take a MOSFET that opens at "
                            + Figures.volts(supplyV))));
    electrical
        .flatMap(Electrical::allPinsMostMa)
        .ifPresent(
            most -> {
              double pins = pinsMa(supplyV);
              if (pins > most.doubleValue()) {
                remarks.add(
                    Remark.fault(
                        "all pins together give "
                            + Figures.milliamperes(pins)
                            + ", and "
                            + Figures.milliamperes(most.doubleValue())
                            + " is the absolute maximum"));
              }
            });
    addFeed(remarks, supplyV);
    return remarks;
  }

  private void addFeed(List<Remark> remarks, double supplyV) {
    if (supply.kind() == Circuit.Supply.COIN_CELL && supplyV > FULL_COIN_CELL_V) {
      remarks.add(
          Remark.warning(
              "a coin cell gives 3 V, and everything here is worked out for "
                  + Figures.volts(supplyV)
                  + ": set board.supply_v"));
    }
    if (supply.mostMa().isEmpty()) {
      return;
    }
    double most = supply.mostMa().get();
    String name = words(supply.kind());
    if (restMa() > most) {
      remarks.add(
          Remark.fault(
              "without an alarm the board takes "
                  + Figures.milliamperes(restMa())
                  + ", and "
                  + name
                  + " gives "
                  + Figures.milliamperes(most)
                  + " for long"));
    }
    double alarmMost = supply.pulseMa().orElse(most);
    if (alarmMa() > alarmMost) {
      remarks.add(
          Remark.fault(
              "in an alarm the board takes "
                  + Figures.milliamperes(alarmMa())
                  + ", and "
                  + name
                  + " gives "
                  + Figures.milliamperes(alarmMost)
                  + (supply.pulseMa().isPresent() ? " for a moment" : "")));
    } else if (alarmMa() > most) {
      remarks.add(
          Remark.warning(
              "in an alarm the board takes "
                  + Figures.milliamperes(alarmMa())
                  + ", more than "
                  + name
                  + " gives for long ("
                  + Figures.milliamperes(most)
                  + ")"));
    }
  }
}
