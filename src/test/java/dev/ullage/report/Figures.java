package dev.ullage.report;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.util.List;
import java.util.Optional;

/** Invented figures on real targets, each number a different one so that a swap shows. */
final class Figures {
  private static final Catalogue CATALOGUE = Catalogue.load();

  static final Estimate ESTIMATE =
      new Estimate(
          Estimate.Grade.MEASURED,
          new Estimate.Interval(690, 702, 716),
          12,
          38,
          List.of(
              new Estimate.Part("start-up", 54, 0),
              new Estimate.Part("average", 128, 10),
              new Estimate.Part("alarm", 520, 2)),
          List.of(new Buffer("averaging window", "average", "window", 8)),
          List.of(
              new Estimate.Step("main", 2),
              new Estimate.Step("reading_take", 25),
              new Estimate.Step("tick interrupt", 11)));

  private Figures() {}

  static Target target(String name) {
    return CATALOGUE.target(name).orElseThrow();
  }

  static final Loop LOOP =
      LoopReader.read(
          "cold-store.yaml",
          """
          loop: cold-store guard
          sensor: {bus: i2c, address: 0x48, frame: {sample_bytes: 2, shift_right: 5}, scale: {gain: 0.125}}
          alarm: {when: above, threshold: 8}
          outputs: {lamp: {blink_ms: 0}}
          """);

  private static Optional<Firmware> plan(String target) {
    return Optional.of(((Plan.Possible) Plan.of(LOOP, target(target))).firmware());
  }

  /** The example of the documentation: 8192 - 716 - 410 and 512 - 12 - 38 - 16 bytes are left. */
  static Assessment fits() {
    return new Assessment(
        target("attiny85"),
        new Verdict(Verdict.Kind.FITS, "ram", "446 B of RAM and 7066 B of flash stay free"),
        plan("attiny85"),
        Optional.of(ESTIMATE),
        Optional.of(new Headroom(7066, 446)));
  }

  static Assessment over() {
    return new Assessment(
        target("attiny13a"),
        new Verdict(
            Verdict.Kind.OVER,
            "ram",
            "fixed 12 B + stack 38 B + margin 16 B = 66 B, but 64 B of RAM"),
        plan("attiny13a"),
        Optional.of(ESTIMATE),
        Optional.of(new Headroom(256, -2)));
  }

  static Assessment lacks(String name) {
    return new Assessment(
        target(name),
        new Verdict(Verdict.Kind.LACKS, "pin", "no pin is left for the lamp"),
        Optional.empty(),
        Optional.empty(),
        Optional.empty());
  }

  static Survey survey() {
    return new Survey(
        "cold-store guard",
        List.of(fits(), over(), lacks("attiny25"), lacks("attiny45")),
        List.of("avr-gcc 5.4.0 -Os"));
  }
}
