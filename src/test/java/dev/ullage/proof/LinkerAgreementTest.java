package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.fail;

import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Sizing;
import dev.ullage.target.Catalogue;
import dev.ullage.target.Target;
import dev.ullage.testing.Toolchain;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Estimates against the linkers (avr-gcc 5.4, arm-none-eabi-gcc 12.2 and riscv64-unknown-elf-gcc
 * 12.2 of Debian 12), on emitted firmware that is compiled with every warning an error.
 *
 * <p>The cost tables were made from none of the random loops: see {@link FreshLoops}. For more of
 * them, {@code -Dullage.programs=2000}.
 */
class LinkerAgreementTest {
  static final long SEED = 4_711;

  private static final int PROGRAMS = Integer.getInteger("ullage.programs", 260);

  private final Sizing sizing = new Sizing(CostTables.packed());
  private final List<Target> targets = Toolchain.buildable(Catalogue.load().targets());

  @Test
  void everySampleOnEveryKindOfTarget_agreesWithTheLinker() throws IOException {
    List<Firmware> programs = new ArrayList<>();
    int turn = 0;
    for (Path sample : samples()) {
      Loop loop = LoopReader.read(sample);
      for (List<Target> kind : kinds()) {
        // Another part of each kind for each sample, so that most have their turn.
        plan(loop, kind.get(turn % kind.size())).ifPresent(programs::add);
      }
      turn++;
    }

    assertEquals(names(targets, Target::codeClass), namesIn(programs, Target::codeClass));
    assertEquals(
        names(targets, each -> each.family().name()),
        namesIn(programs, each -> each.family().name()));
    agree("samples", programs);
  }

  @Test
  void everyWayOfTheClock_agreesWithTheLinker() {
    Loop loop = LoopReader.read(Path.of("generated-samples/bilge/bilge.yaml"));
    List<Firmware> programs = new ArrayList<>();
    for (List<Target> kind : groups(each -> each.family().name() + ' ' + each.codeClass())) {
      Map<String, Firmware> ofWay = new TreeMap<>();
      for (Target target : kind) {
        target
            .clock()
            .settings()
            .forEach(
                (hz, setting) ->
                    plan(loop.with(loop.board().with(OptionalLong.of(hz), Map.of())), target)
                        .ifPresent(firmware -> ofWay.putIfAbsent(setting.way(), firmware)));
      }
      programs.addAll(ofWay.values());
    }

    agree("clocks", programs);
  }

  @Test
  void randomLoops_agreeWithTheLinker() {
    Iterator<Loop> loops = FreshLoops.of(SEED, 4 * PROGRAMS).iterator();
    List<Firmware> programs = new ArrayList<>();
    for (int turn = 0; programs.size() < PROGRAMS; turn++) {
      for (List<Target> core : groups(Target::codeClass)) {
        // A stride that visits all, and soon other families.
        programs.add(nextThatCanRun(loops, core.get(turn * 7 % core.size())));
      }
    }

    assertEquals(names(targets, Target::codeClass), namesIn(programs, Target::codeClass));
    agree("random", programs);
  }

  private static Firmware nextThatCanRun(Iterator<Loop> loops, Target target) {
    while (loops.hasNext()) {
      Optional<Firmware> firmware = plan(loops.next(), target);
      if (firmware.isPresent()) {
        return firmware.get();
      }
    }
    return fail("Too few loops can run on " + target.name() + ".");
  }

  /** Builds them, and shows the smallest loop that fails where one does. */
  private void agree(String kind, List<Firmware> programs) {
    Comparisons comparisons = Comparisons.of(programs, sizing);
    comparisons.record(kind);
    System.out.println(comparisons.tables(kind));
    comparisons.all().stream()
        .filter(each -> !each.holds())
        .findFirst()
        .ifPresent(miss -> System.out.println(miss + "\n" + smallest(miss.firmware())));
    comparisons.holdWhatIsPromised();
  }

  private String smallest(Firmware firmware) {
    Target target = firmware.target();
    String loop =
        Shrinker.shrink(
            firmware.loop(),
            smaller ->
                plan(smaller, target).stream()
                    .anyMatch(plan -> !Comparison.of(plan, sizing).holds()));
    return "The estimate fails for this loop on " + target.name() + " too:\n" + loop;
  }

  private static Optional<Firmware> plan(Loop loop, Target target) {
    return Plan.of(loop, target) instanceof Plan.Possible possible
        ? Optional.of(possible.firmware())
        : Optional.empty();
  }

  /** Parts on which the same loop becomes the same program, as far as the catalogue knows. */
  private Collection<List<Target>> kinds() {
    return groups(each -> each.family().name() + ' ' + each.codeClass() + ' ' + each.vectors());
  }

  private Collection<List<Target>> groups(Function<Target, String> key) {
    return targets.stream()
        .collect(Collectors.groupingBy(key, TreeMap::new, Collectors.toList()))
        .values();
  }

  private static Set<String> names(List<Target> targets, Function<Target, String> name) {
    return targets.stream().map(name).collect(Collectors.toCollection(TreeSet::new));
  }

  private static Set<String> namesIn(List<Firmware> programs, Function<Target, String> name) {
    return names(programs.stream().map(Firmware::target).toList(), name);
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
