package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.loop.Extras.Report;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Outputs.Sounder;
import dev.ullage.proof.Seen.Tone;
import dev.ullage.proof.UnitAverage.Mean;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;

/** What a loop file promises, held against what a simulated board saw. */
final class SeenChecks {
  private static final double PERIOD_PART = 0.01;
  private static final double PATTERN_PART = 0.02;
  private static final int WHOLE_TONE_EDGES = 100;

  private SeenChecks() {}

  /** The alarm goes on and off at the right reading, in time, and says so on the serial line. */
  static void doesItsJob(BoardCase each, Seen seen) {
    Loop loop = each.trial().loop();
    assertAll(
        () -> assertEquals(each.trial().expected().alarms(), seen.alarms(), "alarms"),
        () -> assertEquals(List.of(), seen.resets(), "resets"),
        () -> asksRightly(each.trial(), seen),
        () -> waits(loop, seen),
        () -> keepsPeriod(loop, seen),
        () -> blinks(loop, seen),
        () -> loop.outputs().sounder().ifPresent(sounder -> sounds(each, sounder, seen)),
        () -> loop.extras().report().ifPresent(report -> reports(each.trial(), report, seen)));
  }

  private static void asksRightly(Trial trial, Seen seen) {
    for (int i = 0; i < seen.asked().size(); i++) {
      if (!trial.hasFailed(i)) {
        assertEquals(trial.loop().sensor().ask(), seen.asked().get(i), "written to the sensor");
      }
    }
  }

  /** Never shorter than the sensor needs. */
  static void waits(Loop loop, Seen seen) {
    if (!loop.sensor().ask().isEmpty()) {
      assertFalse(seen.waits().isEmpty(), "nothing was read after asking");
      long least = 1000L * loop.sensor().waitMs();
      seen.waits().forEach(us -> assertTrue(us >= least, () -> us + " us of " + least + " us"));
    }
  }

  static void keepsPeriod(Loop loop, Seen seen) {
    assertFalse(seen.periodsMs().isEmpty());
    double leeway = PERIOD_PART * loop.periodMs();
    for (double ms : seen.periodsMs()) {
      assertEquals(loop.periodMs(), ms, leeway, "period in ms");
    }
  }

  static void blinks(Loop loop, Seen seen) {
    int wanted = loop.outputs().lamp().map(lamp -> lamp.blinkMs()).orElse(0);
    if (wanted > 0) {
      List<Double> blinks = seen.blinksMs(wanted);
      assertFalse(blinks.isEmpty(), "no blink");
      blinks.forEach(ms -> assertEquals(wanted, ms, PATTERN_PART * wanted, "blink in ms"));
    }
  }

  private static void sounds(BoardCase each, Sounder sounder, Seen seen) {
    if (sounder.toneHz() > 0) {
      List<Tone> whole =
          seen.tones().stream().filter(tone -> tone.edges() > WHOLE_TONE_EDGES).toList();
      assertFalse(whole.isEmpty(), "no tone");
      double leeway = PATTERN_PART * sounder.toneHz();
      whole.forEach(tone -> assertEquals(sounder.toneHz(), tone.hz(), leeway, "tone in Hz"));
      if (sounder.offMs() > 0) {
        beeps(each, sounder, seen);
      }
    }
  }

  /** A program that waits for a character to be sent looks at the time after it. */
  private static void beeps(BoardCase each, Sounder sounder, Seen seen) {
    List<Tone> beeps = seen.beeps(sounder.offMs());
    assertFalse(beeps.isEmpty(), "no beep");
    double characterMs =
        each.trial().loop().extras().report().map(report -> 10_000.0 / report.baud()).orElse(0.0);
    double leeway = PATTERN_PART * sounder.onMs() + characterMs;
    beeps.forEach(beep -> assertEquals(sounder.onMs(), beep.ms(), leeway, "beep in ms"));
  }

  private static void reports(Trial trial, Report report, Seen seen) {
    double bitNs = 1e9 / report.baud();
    seen.serial()
        .forEach(each -> assertEquals(bitNs, each.bitNs(), PATTERN_PART * bitNs, "bit in ns"));
    List<Optional<Mean>> averages = trial.expected().averages();
    String alarms = trial.expected().alarms();
    if (report.send() == Report.Send.AVERAGE) {
      averages(trial, averages, alarms, seen.report());
    } else {
      FrameReport.check(trial, seen.report());
    }
  }

  private static void averages(
      Trial trial, List<Optional<Mean>> averages, String alarms, List<String> lines) {
    int at = 0;
    for (int i = 0; i < averages.size(); i++) {
      if (trial.isFault(i)) {
        assertEquals("-", lines.get(at++), "line of a reading that failed");
      } else if (averages.get(i).isPresent()) {
        average(
            averages.get(i).get(), trial.expected().leeway(), alarms.charAt(i), lines.get(at++));
      }
    }
    assertEquals(lines.size(), at, "lines of the report");
  }

  private static void average(Mean mean, BigDecimal leeway, char alarm, String line) {
    String[] cells = line.split(",");
    assertEquals(2, cells.length, line);
    near(mean.value(), leeway, cells[0]);
    assertEquals(alarm == '#' ? "1" : "0", cells[1], () -> "alarm in " + line);
  }

  /**
   * A printed number: off by half of its last digit, and by one more where the multiplier that
   * makes it is rounded.
   */
  static void near(BigDecimal value, BigDecimal leeway, String text) {
    BigDecimal printed = new BigDecimal(text);
    BigDecimal most = leeway.add(new BigDecimal("1.5").scaleByPowerOfTen(-printed.scale()));
    BigDecimal off = printed.subtract(value).abs();
    assertTrue(off.compareTo(most) <= 0, () -> text + " for " + value.toPlainString());
  }
}
