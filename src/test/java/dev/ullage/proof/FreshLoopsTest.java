package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.calibrate.CalibrationLoops;
import dev.ullage.loop.Frame;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Loops;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

class FreshLoopsTest {

  @Test
  void noFreshLoop_isOneOfCalibration() {
    List<Loop> fresh = FreshLoops.of(LinkerAgreementTest.SEED, 2_000);
    Set<String> jobs = fresh.stream().map(FreshLoops::job).collect(Collectors.toSet());
    // Printing is slow, and what differs here is not the same.
    Set<Frame> frames =
        fresh.stream().map(loop -> loop.sensor().frame()).collect(Collectors.toSet());

    assertTrue(jobs.size() > 1_900, () -> jobs.size() + " loops");
    assertEquals(
        List.of(),
        CalibrationLoops.all()
            .filter(loop -> frames.contains(loop.sensor().frame()))
            .map(FreshLoops::job)
            .filter(jobs::contains)
            .toList());
  }

  @Test
  void loopOfCalibration_isLeftOutUnderAnyName() {
    Loop fresh = Loops.random(1, 1).get(0);
    Loop taken = CalibrationLoops.all().skip(4_321).findFirst().orElseThrow();
    Loop renamed = renamed(taken);

    assertEquals(
        List.of(fresh), FreshLoops.without(CalibrationLoops.all(), List.of(renamed, fresh)));
  }

  @Test
  void job_isTheSameWithOtherNamesAndWaysToWriteANumber() {
    String text =
        """
        loop: %s
        sensor: {bus: i2c, address: %s, frame: {sample_bytes: 2}, scale: {gain: 1, unit: %s}}
        alarm: {when: above, threshold: %s}
        """;
    String one = FreshLoops.job(loop(text.formatted("bilge", "0x48", "mm", "20")));

    assertEquals(one, FreshLoops.job(loop(text.formatted("kiln", "0x11", "cm", "20.0"))));
    assertTrue(!one.equals(FreshLoops.job(loop(text.formatted("bilge", "0x48", "mm", "200")))));
  }

  private static Loop loop(String text) {
    return LoopReader.read("made-up.yaml", text);
  }

  private static Loop renamed(Loop loop) {
    return new Loop(
        "another name",
        loop.periodMs(),
        loop.sensor(),
        loop.average(),
        loop.alarm(),
        loop.outputs(),
        loop.extras(),
        loop.board(),
        loop.busDriver(),
        loop.buffer(),
        loop.bring(),
        loop.margin());
  }
}
