package dev.ullage.wiring;

import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.Circuit;
import dev.ullage.loop.Extras;
import dev.ullage.loop.Outputs;
import dev.ullage.target.Electrical;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Puts together what flows where. */
final class CurrentSums {
  private static final double COIN_CELL_MAH = 225;

  private final Firmware plan;
  private final Circuit circuit;
  private final Outputs outputs;
  private final double supplyV;
  private final Optional<Electrical> electrical;
  private final PullUps pullUps;
  private final Transaction transaction;
  private final List<OutputDrive> drives = new ArrayList<>();
  private final List<Currents.Taker> takers = new ArrayList<>();

  CurrentSums(
      Firmware plan,
      double supplyV,
      Optional<Electrical> electrical,
      PullUps pullUps,
      Transaction transaction) {
    this.plan = plan;
    this.circuit = plan.loop().board().circuit();
    this.outputs = plan.loop().outputs();
    this.supplyV = supplyV;
    this.electrical = electrical;
    this.pullUps = pullUps;
    this.transaction = transaction;
  }

  Currents currents() {
    Optional<Resistor> lamp = outputs.lamp().flatMap(l -> lampResistor());
    boolean known = addPart();
    addBoard();
    lamp.ifPresent(resistor -> add(Role.LAMP, resistor.ma(), circuit.lampV() + " V lamp"));
    outputs
        .sounder()
        .ifPresent(s -> add(Role.SOUNDER, circuit.sounderMa().doubleValue(), "board.sounder_ma"));
    outputs
        .relay()
        .ifPresent(r -> add(Role.RELAY, circuit.relayMa().doubleValue(), "board.relay_ma"));
    Currents all =
        new Currents(
            lamp,
            drives,
            takers,
            electrical.map(e -> e.pinMa(supplyV)),
            Currents.Feed.of(circuit.supply()),
            Optional.empty());
    return known ? all.with(battery(all)) : all;
  }

  private Optional<Resistor> lampResistor() {
    double forward = circuit.lampV().doubleValue();
    return forward < supplyV
        ? Optional.of(Resistor.inSeries(supplyV, forward, circuit.lampMa().doubleValue()))
        : Optional.empty();
  }

  private Optional<Currents.Battery> battery(Currents all) {
    double mah =
        circuit.batteryMah().isPresent()
            ? circuit.batteryMah().getAsInt()
            : circuit.supply() == Circuit.Supply.COIN_CELL ? COIN_CELL_MAH : 0;
    return mah > 0 ? Optional.of(new Currents.Battery(mah, all.restMa())) : Optional.empty();
  }

  /** False where it is not known what the part takes. */
  private boolean addPart() {
    Optional<Electrical.Taken> active = electrical.flatMap(Electrical::active);
    if (active.isEmpty()) {
      takers.add(new Currents.Taker(plan.target().title(), 0, 0, "not known here"));
      return false;
    }
    double activeMa = active.get().ma(plan.clock().hz(), supplyV);
    double asleepMa = asleepMa().orElse(activeMa);
    double busy = Math.min(1, busyShare());
    double rest = busy * activeMa + (1 - busy) * asleepMa;
    takers.add(new Currents.Taker(plan.target().title(), activeMa, rest, why(active.get(), busy)));
    return true;
  }

  private Optional<Double> asleepMa() {
    return switch (plan.loop().extras().sleep()) {
      case NONE -> Optional.empty();
      case IDLE -> electrical.flatMap(Electrical::idle).map(i -> i.ma(plan.clock().hz(), supplyV));
      case DEEP -> electrical.flatMap(Electrical::napMa).map(ma -> ma.doubleValue());
    };
  }

  private double busyShare() {
    return transaction.share() + reportMs() / plan.loop().periodMs();
  }

  /** A line of twelve characters of ten bits. */
  private double reportMs() {
    return plan.loop().extras().report().map(r -> 1000.0 * 12 * 10 / r.baud()).orElse(0.0);
  }

  private String why(Electrical.Taken active, double busy) {
    String given =
        (active.most() ? "at most " : "typically ")
            + Figures.milliamperes(active.ma())
            + " at "
            + Figures.digits(active.mhz())
            + " MHz and "
            + Figures.volts(active.volts());
    return plan.loop().extras().sleep() == Extras.Sleep.NONE
        ? given + ", never asleep"
        : given + ", awake " + Figures.percent(busy) + " of the time";
  }

  private void addBoard() {
    double sensorMa = circuit.sensorMa().doubleValue();
    takers.add(new Currents.Taker("sensor", sensorMa, sensorMa, "board.sensor_ma, all the time"));
    double lowMa = 2 * pullUps.ma();
    double low = Math.min(1, transaction.share());
    takers.add(
        new Currents.Taker(
            "pull-ups", lowMa, lowMa * low / 2, "both lines low; half of the bus time"));
    if (plan.pins().containsKey(Role.KNOB)) {
      double knobMa = 1000 * supplyV / Currents.KNOB_OHM;
      takers.add(new Currents.Taker("knob", knobMa, knobMa, "10 kohm across the supply"));
    }
  }

  private boolean isHigh(Role role) {
    return outputs.active(role) == Outputs.Active.HIGH;
  }

  private void add(Role role, double ma, String why) {
    boolean coil = role == Role.RELAY;
    double pin = electrical.map(e -> e.pinMa(supplyV)).orElse(0.0);
    OutputDrive drive =
        coil || ma > pin
            ? OutputDrive.through(role, ma, isHigh(role), supplyV, pin)
            : OutputDrive.direct(role, ma, isHigh(role));
    drives.add(drive);
    double base = drive.transistor() ? drive.pinMa(supplyV) : 0;
    String through = drive.transistor() ? ", and its transistor's base" : "";
    takers.add(
        new Currents.Taker(role.name().toLowerCase(Locale.ROOT), ma + base, 0, why + through));
  }
}
