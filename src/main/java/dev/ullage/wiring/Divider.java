package dev.ullage.wiring;

import dev.ullage.firmware.Clocking;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board.Role;
import dev.ullage.loop.BusDriver;
import dev.ullage.loop.Outputs;
import dev.ullage.target.Converter;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;

/**
 * A rate or a time that follows from the clock by a divider.
 *
 * @param what what it is for
 * @param wanted what the loop file asks for
 * @param real what comes out
 * @param error how far that is off, as a share; NaN where it only has to stay below a limit
 * @param how the divider
 */
public record Divider(String what, String wanted, String real, double error, String how) {

  static List<Divider> of(Firmware plan) {
    List<Divider> all = new ArrayList<>();
    all.add(bus(plan));
    plan.loop()
        .extras()
        .report()
        .ifPresent(
            report ->
                all.add(
                    new Divider(
                        "serial line",
                        report.baud() + " baud",
                        Figures.digits(report.baud() * (1 + error(plan))) + " baud",
                        error(plan),
                        plan.serial().orElseThrow().hardware().isPresent()
                            ? constants(plan.serial().orElseThrow().constants())
                            : "counted by the program")));
    plan.loop()
        .outputs()
        .sounder()
        .filter(sounder -> plan.tone().isPresent())
        .ifPresent(sounder -> all.add(tone(plan, sounder)));
    all.add(tick(plan));
    if (plan.pins().containsKey(Role.KNOB)) {
      plan.target().family().converter().ifPresent(c -> addConverter(all, plan, c));
    }
    return all;
  }

  private static double error(Firmware plan) {
    return plan.serial().orElseThrow().error();
  }

  private static Divider bus(Firmware plan) {
    int wanted = plan.loop().sensor().speedHz();
    return new Divider(
        "two-wire bus",
        "up to " + Figures.hertz(wanted),
        Figures.hertz(plan.bus().hz()),
        Double.NaN,
        plan.bus().driver() == BusDriver.BITBANG
            ? "cycles of the program"
            : constants(plan.bus().constants()));
  }

  private static Divider tone(Firmware plan, Outputs.Sounder sounder) {
    var tone = plan.tone().orElseThrow();
    return new Divider(
        "tone",
        Figures.hertz(sounder.toneHz()),
        Figures.hertz(tone.hz()),
        tone.hz() / sounder.toneHz() - 1,
        tone.timer().name() + ", clock / " + tone.prescaler() + ", top " + tone.top());
  }

  private static Divider tick(Firmware plan) {
    var pace = plan.pace();
    String counts = pace.countsPerTick() > 1 ? ", " + pace.countsPerTick() + " rounds" : "";
    return new Divider(
        "tick",
        Figures.milliseconds(pace.tickMs()),
        Figures.milliseconds(pace.exactTickMs()),
        pace.exactTickMs() / pace.tickMs() - 1,
        pace.timer().name() + ", clock / " + pace.prescaler() + ", top " + pace.top() + counts);
  }

  private static void addConverter(List<Divider> all, Firmware plan, Converter converter) {
    OptionalInt divider = converter.divider(plan.clock().hz());
    divider.ifPresent(
        by ->
            all.add(
                new Divider(
                    "converter",
                    "up to " + Figures.hertz(converter.clockMaxHz()),
                    Figures.hertz((double) plan.clock().hz() / by),
                    Double.NaN,
                    Clocking.megahertz(plan.clock().hz()) + " / " + by)));
  }

  private static String constants(java.util.Map<String, Long> constants) {
    List<String> all = new ArrayList<>();
    constants.forEach(
        (name, value) -> all.add(name + " " + (value > 999_999 ? hex(value) : value)));
    return String.join(", ", all);
  }

  private static String hex(long value) {
    return String.format("0x%08X", value);
  }
}
