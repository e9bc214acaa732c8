package dev.ullage.wiring;

import dev.ullage.firmware.Clocking;
import dev.ullage.firmware.Firmware;
import dev.ullage.target.Clock;
import dev.ullage.target.Electrical;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Voltages that meet on the board.
 *
 * @param supplyV of the part
 * @param leastV, mostV what the part may have at this clock, in V
 * @param sensorV of the sensor
 * @param busV what the bus lines are pulled up to: the lower of the two
 * @param partReadsHighV the part reads a bus line as high above this, in V
 * @param sensorReadsHighV the sensor does
 * @param partBearsV the most that the part's bus pins bear, where it is known
 */
public record Levels(
    double supplyV,
    double leastV,
    double mostV,
    double sensorV,
    double busV,
    double partReadsHighV,
    double sensorReadsHighV,
    Optional<Double> partBearsV) {

  // UM10204 Rev. 7.0, table of the I/O stages: VIH is 0.7 VDD at least.
  private static final double BUS_HIGH = 0.7;

  static Levels of(Firmware plan, Optional<Electrical> electrical) {
    Clock clock = plan.target().clock();
    double supply = Clocking.supplyV(plan.loop().board(), clock).doubleValue();
    double sensor =
        plan.loop().board().circuit().sensorV().map(BigDecimal::doubleValue).orElse(supply);
    return new Levels(
        supply,
        clock.supplyFrom(plan.clock().hz()).doubleValue(),
        clock.supplyMax().doubleValue(),
        sensor,
        Math.min(supply, sensor),
        electrical.map(e -> e.highV(supply)).orElse(BUS_HIGH * supply),
        BUS_HIGH * sensor,
        electrical.map(e -> e.toleratesV(supply)));
  }

  /** Whether one side would not read what the other sends. */
  public boolean needsShifter() {
    return busV < partReadsHighV || busV < sensorReadsHighV;
  }

  List<Remark> remarks(Firmware plan) {
    List<Remark> remarks = new ArrayList<>();
    if (plan.loop().board().supplyV().isEmpty()) {
      remarks.add(
          Remark.note(
              "board.supply_v is not given: everything here is worked out for "
                  + Figures.volts(supplyV)
                  + ", the most that the part may have"));
    }
    if (needsShifter()) {
      String side =
          busV < partReadsHighV
              ? "the part, which reads high above " + Figures.volts(partReadsHighV)
              : "the sensor, which reads high above " + Figures.volts(sensorReadsHighV);
      remarks.add(
          Remark.fault(
              "a bus line at "
                  + Figures.volts(busV)
                  + " is too low for "
                  + side
                  + ": shift the levels of both lines"));
    } else if (sensorV != supplyV) {
      remarks.add(
          Remark.note(
              "part and sensor have supplies of their own: pull the bus lines up to "
                  + Figures.volts(busV)
                  + ", the lower of the two"));
    }
    if (partBearsV.isPresent() && sensorV > partBearsV.get()) {
      remarks.add(
          Remark.warning(
              "the part's bus pins bear "
                  + Figures.volts(partBearsV.get())
                  + ": no pull-ups on the sensor's board may lead them to its "
                  + Figures.volts(sensorV)));
    }
    if (plan.clock().source() == Clocking.Source.OUTSIDE && supplyV == leastV) {
      remarks.add(
          Remark.note(
              "at "
                  + Clocking.megahertz(plan.clock().hz())
                  + " the part needs all of its "
                  + Figures.volts(supplyV)));
    }
    return remarks;
  }
}
