package dev.ullage.slim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.sizing.Sizing;
import dev.ullage.sizing.Verdict;
import dev.ullage.slim.Slimming.Outcome;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

class SlimmerTest {
  private static final Sizing SIZING = new Sizing(Cases.COSTS);

  @Test
  void tightByEightBytes_isCuredByFourReadings() {
    Slimming slimming = Cases.sample("cold-store", "attiny13a").slim();
    assertEquals(Outcome.SLIMMED, slimming.outcome());
    SlimSet best = slimming.sets().get(0);
    assertEquals(4, best.loop().average().readings());
    assertEquals(new Saving(0, 8, 0), best.together().orElseThrow());
    assertEquals(new Saving(0, 8, 0), best.steps().get(0).alone().orElseThrow());
  }

  @Test
  void fits_needsNoChange() {
    Slimming slimming = Cases.sample("cold-store", "attiny85").slim();
    assertEquals(Outcome.FITS, slimming.outcome());
    assertEquals(List.of(), slimming.sets());
    assertEquals(1, slimming.trials());
  }

  @Test
  void missingPin_isCuredByWhatFreesOne() {
    Slimming slimming = Cases.sample("bilge", "attiny25").slim();
    assertEquals(Outcome.SLIMMED, slimming.outcome());
    assertEquals(
        List.of("extras.report", "outputs.lamp", "outputs.sounder"),
        slimming.sets().stream().limit(3).map(set -> set.steps().get(0).change().key()).toList());
    assertTrue(slimming.sets().get(0).together().isEmpty());
  }

  @Test
  void missingVoltage_isNotCured() throws Exception {
    String text = Files.readString(Path.of("generated-samples/cold-store/cold-store.yaml"));
    Loop loop = LoopReader.read("low.yaml", text + "\nboard: {supply_v: 1.2}\n");
    Slimming slimming = new Slimmer(Cases.target("attiny13a"), Cases.COSTS, Set.of()).slim(loop);
    assertEquals(Outcome.NOTHING, slimming.outcome());
    assertEquals("voltage", slimming.unchanged().lack().orElseThrow().resource());
    assertTrue(slimming.nearest().isEmpty());
    assertFalse(slimming.isSolved());
  }

  @Test
  void tooMuchOfTheUsersOwn_namesWhatIsStillMissing() throws Exception {
    String text = Files.readString(Path.of("generated-samples/cold-store/cold-store.yaml"));
    Loop loop = LoopReader.read("greedy.yaml", text + "\nbring: {ram_bytes: 600}\n");
    Slimming slimming = new Slimmer(Cases.target("attiny85"), Cases.COSTS, Set.of()).slim(loop);
    assertEquals(Outcome.NOTHING, slimming.outcome());
    int missing = slimming.nearest().orElseThrow().shortRam();
    assertTrue(missing > 88 && missing < slimming.unchanged().shortRam(), () -> "" + missing);
  }

  @Test
  void withoutMargin_isBetterThanNothing() throws Exception {
    String text = Files.readString(Path.of("generated-samples/cold-store/cold-store.yaml"));
    Loop loop =
        LoopReader.read("wary.yaml", text + "\nbring: {ram_bytes: 10}\nmargin: {ram_bytes: 40}\n");
    Slimming slimming = new Slimmer(Cases.target("attiny13a"), Cases.COSTS, Set.of()).slim(loop);
    assertEquals(Outcome.WITHOUT_MARGIN, slimming.outcome());
    assertEquals(loop.margin(), slimming.sets().get(0).loop().margin());
    assertEquals(Verdict.Kind.TIGHT, verdict(slimming, slimming.sets().get(0).loop()).kind());
  }

  @Test
  void kept_isInNoSet() {
    Cases tight = Cases.sample("cold-store", "attiny13a");
    Slimming slimming =
        new Slimmer(tight.target(), Cases.COSTS, Set.of(Aspect.AVERAGE)).slim(tight.loop());
    assertTrue(slimming.isSolved());
    for (SlimSet set : slimming.sets()) {
      assertEquals(tight.loop().average(), set.loop().average());
    }
  }

  @Test
  void searchThatIsGivenUp_saysSoAndStillEndsWithAMinimalSet() {
    int found = 0;
    for (Cases each : Cases.random(8, 24)) {
      Slimming slimming = new Slimmer(each.target(), Cases.COSTS, Set.of(), 0).slim(each.loop());
      if (slimming.outcome() == Outcome.SLIMMED) {
        assertFalse(slimming.cheapest());
        assertEquals(1, slimming.sets().size());
        check(slimming, slimming.sets().get(0));
        assertTrue(
            slimming.sets().get(0).weight() >= each.slim().sets().get(0).weight(),
            () -> "" + each.loop());
        found++;
      }
    }
    assertTrue(found > 5, "Only " + found + " sets.");
  }

  @Test
  void randomLoops_endWithMinimalSetsThatFit() {
    int sets = 0;
    for (Cases each : Cases.random(5, 60)) {
      Slimming slimming = each.slim();
      if (slimming.outcome() == Outcome.SLIMMED) {
        slimming.sets().forEach(set -> check(slimming, set));
        checkOrder(slimming.sets());
        sets += slimming.sets().size();
      }
    }
    assertTrue(sets > 40, "Only " + sets + " sets.");
  }

  @Test
  void sameLoop_getsTheSameAnswer() {
    for (Cases each : Cases.random(6, 8)) {
      assertEquals(words(each.slim()), words(each.slim()));
    }
  }

  private static List<String> words(Slimming slimming) {
    return slimming.sets().stream()
        .flatMap(set -> set.steps().stream())
        .map(step -> step.change().key() + step.change().to() + step.loss() + step.alone())
        .toList();
  }

  private static void check(Slimming slimming, SlimSet set) {
    assertEquals(Verdict.Kind.FITS, verdict(slimming, set.loop()).kind());
    assertTrue(Alternatives.keepsTheRules(set.loop()));
    for (SlimSet.Step left : set.steps()) {
      Loop without = slimming.loop();
      for (SlimSet.Step step : set.steps()) {
        if (step != left) {
          without = step.change().apply(without).orElse(slimming.loop());
        }
      }
      assertFalse(
          verdict(slimming, without).kind() == Verdict.Kind.FITS,
          () -> left.change().key() + " can be left out on " + slimming.target().name());
    }
  }

  /** Cheapest first, and each leaves something alone that an earlier one changes. */
  private static void checkOrder(List<SlimSet> sets) {
    List<Set<Aspect>> before = new ArrayList<>();
    int weight = 0;
    for (SlimSet set : sets) {
      Set<Aspect> touched =
          Set.copyOf(set.steps().stream().map(step -> step.change().aspect()).toList());
      assertTrue(before.stream().noneMatch(touched::containsAll), () -> "" + touched);
      assertTrue(set.weight() >= weight);
      before.add(touched);
      weight = set.weight();
    }
  }

  private static Verdict verdict(Slimming slimming, Loop loop) {
    if (Plan.of(loop, slimming.target()) instanceof Plan.Possible possible) {
      Firmware plan = possible.firmware();
      return Sizing.verdict(
          slimming.target(),
          SIZING.estimate(slimming.target(), plan.modules(), plan.buffers()),
          loop.bring(),
          loop.margin(),
          "bus driver");
    }
    return new Verdict(Verdict.Kind.LACKS, "", "");
  }
}
