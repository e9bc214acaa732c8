package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.firmware.BusPlan;
import dev.ullage.loop.Extras;
import dev.ullage.target.Electrical;
import dev.ullage.wiring.Currents;
import dev.ullage.wiring.Divider;
import dev.ullage.wiring.Figures;
import dev.ullage.wiring.Levels;
import dev.ullage.wiring.OutputDrive;
import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.PinUse;
import dev.ullage.wiring.PullUps;
import dev.ullage.wiring.Remark;
import dev.ullage.wiring.Transaction;
import dev.ullage.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;

/** The parts that a report on wiring is made of, as tables. */
final class WiringTables {
  private WiringTables() {}

  /** What to solder to which pin; free ones are left out. */
  static Table pins(PinMap map) {
    return new Table(
        List.of(right("no."), left("pin"), left("leads to")),
        map.pins().stream()
            .filter(pin -> pin.kind() != PinUse.Kind.FREE && pin.kind() != PinUse.Kind.NONE)
            .map(pin -> List.of(pin.number(), pin.name(), pin.words()))
            .toList());
  }

  /** Pull-ups, levels and time of the bus. */
  static Table bus(Wiring wiring) {
    PullUps ups = wiring.pullUps();
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("mode", wiring.mode().title(), "UM10204"));
    rows.add(
        List.of(
            "pull-ups",
            Figures.ohm(ups.ohm()),
            "from "
                + Figures.ohm(ups.least())
                + " to "
                + Figures.ohm(ups.most())
                + ups.range()
                    .map(
                        ends ->
                            "; to be had: "
                                + Figures.ohm(ends.get(0))
                                + " to "
                                + Figures.ohm(ends.get(1)))
                    .orElse("")));
    rows.add(
        List.of(
            "rise", Figures.digits(ups.riseNs()) + " ns", "at most " + ups.mostRiseNs() + " ns"));
    addLevels(rows, wiring);
    addTime(rows, wiring);
    return new Table(List.of(left("two-wire bus"), left(""), left("limits")), rows);
  }

  private static void addLevels(List<List<String>> rows, Wiring wiring) {
    Levels levels = wiring.levels();
    rows.add(
        List.of(
            "supply",
            Figures.volts(levels.supplyV()),
            "from "
                + Figures.volts(levels.leastV())
                + " (at this clock) to "
                + Figures.volts(levels.mostV())));
    rows.add(
        List.of(
            "lines at",
            Figures.volts(levels.busV()),
            "the part reads high above "
                + Figures.volts(levels.partReadsHighV())
                + ", the sensor above "
                + Figures.volts(levels.sensorReadsHighV())));
  }

  private static void addTime(List<List<String>> rows, Wiring wiring) {
    Transaction time = wiring.transaction();
    rows.add(
        List.of(
            "a reading",
            Figures.milliseconds(time.ms()),
            Figures.percent(time.share()) + " of the period; a warning above 50 %"));
    rows.add(
        List.of(
            "of that",
            Figures.milliseconds(time.clocksMs()),
            time.wire().bytes()
                + " bytes of 9 clocks, "
                + time.wire().conditions()
                + " for START and STOP, at "
                + Figures.hertz(time.hz())));
    addShare(rows, time.programMs(), "the program between bytes");
    addShare(rows, time.stretchMs(), "the sensor may hold the clock (board.stretch_us)");
    addShare(rows, time.waitMs(), "sensor.wait_ms");
    wiring
        .plan()
        .bus()
        .phases()
        .ifPresent(phases -> rows.add(List.of("clock", phases(phases), least(wiring))));
  }

  private static void addShare(List<List<String>> rows, double ms, String what) {
    if (ms > 0) {
      rows.add(List.of("of that", Figures.milliseconds(ms), what));
    }
  }

  private static String phases(BusPlan.Phases phases) {
    return Figures.digits(phases.lowUs())
        + " us low, "
        + Figures.digits(phases.highUs())
        + " us high";
  }

  private static String least(Wiring wiring) {
    return "at least "
        + Figures.digits(wiring.mode().leastLowUs())
        + " us and "
        + Figures.digits(wiring.mode().leastHighUs())
        + " us";
  }

  /** What the clock is divided by, and how far off that is. */
  static Table dividers(Wiring wiring) {
    return new Table(
        List.of(left("divider"), left("wanted"), left("real"), right("off"), left("how")),
        wiring.dividers().stream()
            .map(d -> List.of(d.what(), d.wanted(), d.real(), off(d), d.how()))
            .toList());
  }

  private static String off(Divider divider) {
    return Double.isNaN(divider.error()) ? "-" : Figures.deviation(divider.error());
  }

  /** Everything that takes current. */
  static Table currents(Wiring wiring) {
    List<List<String>> rows = new ArrayList<>();
    for (Currents.Taker taker : wiring.currents().takers()) {
      rows.add(List.of(taker.name(), ma(taker.alarmMa()), ma(taker.restMa()), taker.why()));
    }
    rows.add(
        List.of(
            "together",
            ma(wiring.currents().alarmMa()),
            ma(wiring.currents().restMa()),
            feed(wiring.currents().supply())));
    return new Table(
        List.of(left("current"), right("in alarm"), right("at rest"), left("from")), rows);
  }

  private static String ma(double ma) {
    return Figures.milliamperes(ma);
  }

  private static String feed(Currents.Feed feed) {
    return feed.mostMa()
        .map(
            most ->
                "the supply gives "
                    + ma(most)
                    + feed.pulseMa().map(pulse -> ", " + ma(pulse) + " for a moment").orElse("")
                    + " ("
                    + feed.source()
                    + ")")
        .orElse("board.supply sets no limit");
  }

  /** How outputs are driven, and what the figures rest on; sentences without their full stops. */
  static List<String> assumptions(Wiring wiring) {
    List<String> all = new ArrayList<>();
    wiring.currents().drives().forEach(drive -> all.add(drive(wiring, drive)));
    wiring
        .electrical()
        .flatMap(Electrical::allPinsMostMa)
        .filter(most -> !wiring.currents().drives().isEmpty())
        .ifPresent(
            most ->
                all.add(
                    "The outputs' pins give "
                        + ma(wiring.currents().pinsMa(wiring.levels().supplyV()))
                        + " together; "
                        + ma(most.doubleValue())
                        + " is the absolute maximum of all pins"));
    wiring
        .currents()
        .battery()
        .ifPresent(
            battery ->
                all.add(
                    "A battery of "
                        + Figures.digits(battery.mah())
                        + " mAh lasts "
                        + Figures.hours(battery.hours())
                        + " if there is no alarm, the battery loses nothing by itself and gives all"
                        + " that it holds, and the part takes what its data sheet says, in"
                        + " proportion to clock and supply"
                        + (wiring.plan().loop().extras().sleep() == Extras.Sleep.NONE
                            ? "; with extras.sleep it would last longer"
                            : "")));
    return all;
  }

  private static String drive(Wiring wiring, OutputDrive drive) {
    String name = Style.word(drive.role());
    String pin =
        wiring
            .currents()
            .pinMa()
            .map(most -> "a pin keeps its levels up to " + ma(most))
            .orElse("what a pin gives is not known here");
    return drive.transistor()
        ? "The "
            + name
            + " takes "
            + ma(drive.ma())
            + " through a transistor with "
            + Figures.ohm(drive.baseOhm())
            + " before its base: "
            + (drive.high()
                ? "an NPN one, its emitter on ground, the "
                    + name
                    + " from its collector to the supply; "
                : "a PNP one, its emitter on the supply, the "
                    + name
                    + " from its collector to ground; ")
            + pin
        : "The " + name + " takes " + ma(drive.ma()) + " straight from its pin; " + pin;
  }

  /** What to buy. */
  static Table parts(Wiring wiring) {
    return new Table(
        List.of(right("count"), left("part"), left("value"), left("why")),
        wiring.parts().stream()
            .map(item -> List.of("" + item.quantity(), item.what(), item.value(), item.why()))
            .toList());
  }

  /** Short, and only those that the loop gives a reason for, after the ones for everybody. */
  static List<String> cautions(Wiring wiring) {
    List<String> all = new ArrayList<>();
    all.add(
        "Not a safety, fire, gas or medical alarm. Nothing here is for mains voltage: local codes"
            + " and licensed practice come first.");
    if (wiring.plan().loop().outputs().relay().isPresent()) {
      all.add(
          "A relay's contacts are rated for a voltage and a current: stay below both, and leave"
              + " mains to a qualified person.");
    }
    if (wiring.plan().loop().outputs().sounder().isPresent()) {
      // NIOSH recommended exposure limit.
      all.add("Keep a loud sounder away from ears: 85 dB(A) for 8 hours is enough for a day.");
    }
    switch (wiring.currents().supply().kind()) {
      case COIN_CELL -> all.add("Lithium coin cells must be kept away from children.");
      case BATTERY -> all.add("Do not short a battery; fuse its lead where it can give much.");
      case BENCH, USB -> {}
    }
    return all;
  }

  static String markdown(WiringReport report) {
    Wiring wiring = report.wiring();
    StringBuilder page = new StringBuilder("# Wiring of ");
    page.append(Markdown.text(wiring.plan().loop().name()))
        .append(" on ")
        .append(wiring.plan().target().title())
        .append(" in ")
        .append(Markdown.text(report.pins().pack()))
        .append("\n\n");
    for (Remark remark : wiring.remarks()) {
      page.append("- **").append(remark.weight().word()).append("**: ");
      page.append(Markdown.text(remark.text())).append(".\n");
    }
    List<Table> tables =
        List.of(pins(report.pins()), bus(wiring), dividers(wiring), currents(wiring));
    tables.forEach(table -> page.append('\n').append(Markdown.table(table)));
    page.append('\n');
    assumptions(wiring).forEach(line -> page.append(Markdown.text(line)).append(".\n\n"));
    page.append(Markdown.table(parts(wiring))).append('\n');
    cautions(wiring).forEach(caution -> page.append(Markdown.text(caution)).append("\n\n"));
    return page.substring(0, page.length() - 1);
  }
}
