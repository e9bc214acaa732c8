package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Knob;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Loops;
import dev.ullage.replay.Reading;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Trace;
import dev.ullage.replay.TraceOptions;
import dev.ullage.replay.Traces;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The same loops and the same bytes on the bus, through emitted firmware on a simulated part and
 * through the replay: after every reading the alarm is the same. That the host's build agrees too
 * is the business of {@code HostAgreementTest}.
 */
class SimulatedReplayTest {
  private static final long SEED = 27;
  private static final int LOOPS = Integer.getInteger("ullage.simulated", 24);
  private static final int READINGS = 80;
  private static final int LONGEST_PERIOD_MS = 1_500;
  // Looks ahead, so that changes may follow each other at once.
  private static final Pattern CHANGE = Pattern.compile("[.](?=#)|#(?=[.])");
  private static final List<String> PARTS = List.of("atmega328p", "attiny85", "atmega2560");

  @TempDir static Path folder;

  @Test
  void randomLoopsOnSimulatedParts_alarmAsReplayed() {
    SimulatedBoard board = new SimulatedBoard(folder);
    List<Firmware> plans =
        Loops.stream(SEED)
            .filter(SimulatedReplayTest::showsItsAlarm)
            .filter(SimulatedReplayTest::isLively)
            .flatMap(loop -> plan(loop).stream())
            .filter(SimulatedReplayTest::leavesTheBusAlone)
            .limit(LOOPS)
            .toList();
    List<String> differ = new ArrayList<>();
    int changes = 0;
    Random random = new Random(SEED);
    for (Firmware plan : plans) {
      boolean high = random.nextBoolean();
      int knob = plan.loop().alarm().limit().knob().isPresent() && high ? Knob.TOP : 0;
      List<Reading> readings = Traces.random(plan.loop(), knob, random, READINGS);
      String replayed = replayed(plan.loop(), readings, knob);
      String seen = board.play(plan, script(plan.loop(), readings, knob)).seen().alarms();
      changes += (int) CHANGE.matcher(replayed).results().count();
      if (!seen.equals(replayed.substring(0, seen.length())) || seen.length() < READINGS - 1) {
        differ.add(plan.loop() + " on " + plan.target().name() + "\n" + seen + "\n" + replayed);
      }
    }
    Ledger.row(
        Figures.REPLAYED, "a simulated part", LOOPS, LOOPS * READINGS, changes, differ.size());
    assertEquals(List.of(), differ);
    int changed = changes;
    assertTrue(changed > 2 * LOOPS, () -> "the alarm changed " + changed + " times only");
  }

  /** So that what the board sees after a reading tells whether the alarm is on. */
  private static boolean showsItsAlarm(Loop loop) {
    boolean lit =
        loop.outputs().lamp().filter(l -> 2 * l.blinkMs() < loop.periodMs() - 50).isPresent();
    return loop.periodMs() <= LONGEST_PERIOD_MS && (loop.outputs().relay().isPresent() || lit);
  }

  /** What needs hundreds of readings to change its alarm is for the host's build. */
  private static boolean isLively(Loop loop) {
    return !loop.alarm().latch()
        && loop.average().readings() <= 16
        && Math.max(loop.alarm().tripAfter(), loop.alarm().clearAfter()) <= 4;
  }

  /**
   * Where the bus is busy for most of the time, the board cannot tell one reading from the next.
   */
  private static boolean leavesTheBusAlone(Firmware plan) {
    int bytes = plan.loop().sensor().frame().bytes() + plan.loop().sensor().ask().size() + 2;
    double ms = bytes * (9_000 / plan.bus().hz() + plan.bus().byteMs());
    return ms + 2.0 * plan.loop().sensor().waitMs() + 3 * plan.pace().exactTickMs()
        < plan.loop().periodMs() / 2.0;
  }

  private static Optional<Firmware> plan(Loop loop) {
    for (int i = 0; i < PARTS.size(); i++) {
      String name = PARTS.get((i + loop.name().length()) % PARTS.size());
      Target target = Catalogue.load().target(name).orElseThrow();
      if (Plan.of(loop, target) instanceof Plan.Possible possible) {
        return Optional.of(possible.firmware());
      }
    }
    return Optional.empty();
  }

  /** As bytes of the frame, so that these are taken apart in the same way too. */
  private static String replayed(Loop loop, List<Reading> readings, int knob) {
    Frame frame = loop.sensor().frame();
    String text =
        readings.stream()
            .map(reading -> reading.failed() ? "-" : hex(FrameBytes.of(frame, reading.raw())))
            .collect(Collectors.joining("\n", "bytes\n", "\n"));
    Trace trace = Trace.read("trace.csv", text, loop, TraceOptions.NONE);
    return Replay.of(loop, trace, knob, Set.of()).steps().stream()
        .map(step -> step.alarm() ? "#" : ".")
        .collect(Collectors.joining());
  }

  private static String hex(int[] bytes) {
    return Arrays.stream(bytes)
        .mapToObj(each -> String.format("%02X", each))
        .collect(Collectors.joining(" "));
  }

  private static Script script(Loop loop, List<Reading> readings, int knob) {
    Script script = new Script();
    if (loop.alarm().limit().knob().isPresent()) {
      script.knob(knob == 0 ? 0 : 5_000);
    }
    for (Reading reading : readings) {
      if (reading.failed()) {
        script.deaf();
      } else {
        script.frame(FrameBytes.of(loop.sensor().frame(), reading.raw()));
      }
    }
    return script;
  }
}
