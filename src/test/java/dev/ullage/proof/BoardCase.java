package dev.ullage.proof;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.target.Catalogue;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.function.Function;

/**
 * Firmware that a simulated board is to run.
 *
 * @param sample what loop it is
 * @param what is tried
 * @param trial the script, and what should come of it
 * @param instead files of the firmware that are replaced, by path
 */
record BoardCase(
    String sample, String what, Firmware firmware, Trial trial, Map<String, String> instead) {

  private static final Catalogue CATALOGUE = Catalogue.load();

  /** A loop file of ours, with a bus driver instead of the one that it may name. */
  static String sample(String name, String driver) {
    try {
      String text = Files.readString(Path.of("generated-samples", name, name + ".yaml"));
      return driven(text, driver);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The loop file with that driver. */
  static String driven(String text, String driver) {
    return text.replaceAll("(?m)^bus_driver: .*$", "") + "\nbus_driver: " + driver + "\n";
  }

  /** A case on a part that can do it. */
  static BoardCase of(
      String sample, String what, String text, String part, Function<Loop, Trial> trial) {
    Firmware firmware = plan(text, part);
    return new BoardCase(sample, what, firmware, trial.apply(firmware.loop()), Map.of());
  }

  /** The same with some of its files replaced. */
  BoardCase with(Map<String, String> files) {
    return new BoardCase(sample, what, firmware, trial, files);
  }

  static Firmware plan(String text, String part) {
    Plan plan = Plan.of(LoopReader.read("loop.yaml", text), CATALOGUE.target(part).orElseThrow());
    if (plan instanceof Plan.Possible possible) {
      return possible.firmware();
    }
    throw new IllegalArgumentException(part + ": " + plan);
  }

  String part() {
    return firmware.target().name();
  }

  String driver() {
    return firmware.bus().driver().name().toLowerCase(java.util.Locale.ROOT);
  }

  @Override
  public String toString() {
    return sample + " on " + part() + ", " + driver() + ", " + what;
  }
}
