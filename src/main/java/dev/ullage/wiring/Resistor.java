package dev.ullage.wiring;

/**
 * A resistor in series with something that has a voltage of its own.
 *
 * @param exactOhm (supply - forward voltage) / current
 * @param ohm the next preferred value up, so that the current does not get above what is wanted
 * @param ma what then flows
 * @param mw what the resistor turns into heat
 */
public record Resistor(double exactOhm, double ohm, double ma, double mw) {

  /** Works it out; the supply must be above the forward voltage. */
  static Resistor inSeries(double supplyV, double forwardV, double wantedMa) {
    double over = supplyV - forwardV;
    if (over <= 0) {
      throw new IllegalArgumentException("Nothing is left for the resistor.");
    }
    double exact = 1000 * over / wantedMa;
    double ohm = PreferredValues.atLeast(exact);
    double ma = 1000 * over / ohm;
    return new Resistor(exact, ohm, ma, ma * over);
  }
}
