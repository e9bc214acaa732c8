package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.loop.Loops;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Estimates against the linker (avr-gcc 5.4, binutils of Debian 12), on emitted firmware that is
 * compiled with every warning an error.
 *
 * <p>The random loops are drawn by other code, with other odds and another seed than those that the
 * cost tables were made from.
 */
class LinkerAgreementTest {
  private static final long SEED = 4_711;
  private static final int RANDOM_PROGRAMS = 260;

  private final Sizing sizing = new Sizing(CostTables.packed());

  @BeforeAll
  static void compilerIsThere() {
    Toolchain.avr();
  }

  @Test
  void everySampleOnEveryTarget_agreesWithTheLinker() throws IOException {
    List<Callable<Comparison>> builds = new ArrayList<>();
    for (Path sample : samples()) {
      Loop loop = LoopReader.read(sample);
      for (Target target : Catalogue.load().targets()) {
        addTo(builds, loop, target);
      }
    }
    assertTrue(builds.size() > 300, () -> builds.size() + " builds");
    Comparisons comparisons = Comparisons.of(builds);
    System.out.println(comparisons.summary("samples on all targets"));
    comparisons.holdWhatIsPromised();
  }

  @Test
  void randomLoops_agreeWithTheLinker() {
    List<Target> targets = Catalogue.load().targets();
    List<Callable<Comparison>> builds = new ArrayList<>();
    int turn = 0;
    for (Loop loop : Loops.random(SEED, 10 * RANDOM_PROGRAMS)) {
      if (builds.size() < RANDOM_PROGRAMS) {
        // A stride that shares no divisor with the number of targets visits all of them.
        addTo(builds, loop, targets.get(turn++ * 37 % targets.size()));
      }
    }
    assertTrue(builds.size() >= 200, () -> builds.size() + " builds");
    Comparisons comparisons = Comparisons.of(builds);
    System.out.println(comparisons.summary("random loops"));
    comparisons.holdWhatIsPromised();
  }

  private void addTo(List<Callable<Comparison>> builds, Loop loop, Target target) {
    if (Plan.of(loop, target) instanceof Plan.Possible possible) {
      Firmware firmware = possible.firmware();
      builds.add(() -> Comparison.of(loop.name() + " on " + target.name(), firmware, sizing));
    }
  }

  private static List<Path> samples() throws IOException {
    try (Stream<Path> folders = Files.list(Path.of("generated-samples"))) {
      return folders
          .map(folder -> folder.resolve(folder.getFileName() + ".yaml"))
          .filter(Files::exists)
          .sorted()
          .toList();
    }
  }
}
