package dev.ullage.cli;

import dev.ullage.firmware.Lack;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.report.WiringReport;
import dev.ullage.target.Target;
import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.Wiring;
import java.nio.file.Path;
import java.util.List;

/** Says what to solder around a part, and whether it will work. */
final class WiringCommand extends BaseCommand {
  private final EarlyReading early;

  private final Argument<Path> file = Argument.parameter("LOOP", Path.class, "The loop file.");
  private final Argument<String> name =
      Argument.required(
          "-t --target", "TARGET", String.class, "Name of the part; `ullage targets` lists them.");
  private final Argument<String> pack =
      Argument.option(
          "--package",
          "PACKAGE",
          String.class,
          "The package to draw, such as SOIC-8; the part's first one if left out.");
  private final OutputOptions output = OutputOptions.withDrawing();

  WiringCommand(Surroundings around, EarlyReading early) {
    super("wiring", around);
    this.early = early;
    describe(
        "Say what to solder around a part, and whether it will work.",
        "Draws the package with its pins, and works out pull-ups, bus time, levels, dividers and"
            + " their errors, currents, how long a battery lasts, and what to buy (as csv: that"
            + " list alone). Says what each figure is held against. Ends with code 1 when"
            + " something will not work.",
        "ullage wiring cold-store.yaml -t attiny85");
    take(file, name, pack);
    output.addTo(this);
  }

  @Override
  ExitCode run() {
    Target target = target(early.catalogue(), name.value());
    Loop loop = LoopReader.read(file.value());
    Plan plan = Plan.of(loop, target);
    if (plan instanceof Plan.Possible possible) {
      Wiring wiring = Wiring.of(possible.firmware(), pins(possible, target));
      WiringReport report = new WiringReport(wiring);
      deliver(
          output.isDrawing()
              ? report.drawing()
              : report.text(output.format(), output.style(around)),
          output.file());
      return wiring.works() ? ExitCode.GOOD : ExitCode.FINDINGS;
    }
    Lack lack = ((Plan.Impossible) plan).lack();
    around.err().println("lacks: " + lack.reason() + ".");
    return ExitCode.FINDINGS;
  }

  private PinMap pins(Plan.Possible plan, Target target) {
    List<String> sold = target.packageNames();
    if (sold.isEmpty()) {
      throw wrongUse("No package of `" + target.name() + "` is drawn in the catalogue");
    }
    String wanted = pack.ifGiven().orElse(sold.get(0));
    return PinMap.of(plan.firmware(), wanted).orElseThrow(() -> unknown("package", wanted, sold));
  }
}
