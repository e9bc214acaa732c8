package dev.ullage.calibrate;

import dev.ullage.emit.EmittedFile;
import dev.ullage.emit.Sources;
import dev.ullage.firmware.Firmware;
import dev.ullage.firmware.Module;
import dev.ullage.firmware.Plan;
import dev.ullage.loop.Board;
import dev.ullage.loop.Loop;
import dev.ullage.measure.ObjectFile;
import dev.ullage.sizing.CostWriter;
import dev.ullage.target.Target;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.function.BiConsumer;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Makes the cost tables: draws loops, plans them on one target of each kind, and compiles every
 * module that turns up once.
 */
public final class Calibration {
  private static final long SEED = 20_260_101;

  private final CrossCompiler compiler;
  private final List<Target> targets;
  private final BiConsumer<Integer, Integer> progress;
  private final Set<String> anew;
  private final List<Loop> draws;

  /** Where a module was met: enough to compile it. */
  private record Witness(Loop loop, Target target, Module module) {}

  /** A measured module, on its way to the writer. */
  private record Measured(Witness witness, ObjectFile object, Map<String, ObjectFile> oneMore) {}

  /**
   * @param targets for which this compiler compiles
   * @param draws how many loops to draw: more find rarer modules
   * @param anew names of the modules to measure again where a table has them already
   * @param progress told how many modules of how many are compiled
   */
  public Calibration(
      CrossCompiler compiler,
      List<Target> targets,
      int draws,
      Set<String> anew,
      BiConsumer<Integer, Integer> progress) {
    this.compiler = compiler;
    this.targets = List.copyOf(targets);
    this.progress = progress;
    this.anew = Set.copyOf(anew);
    this.draws = loops(draws).toList();
  }

  /** The loops that so many draws give; more draws begin with the same. */
  static Stream<Loop> loops(int draws) {
    return Stream.generate(new LoopDraw(SEED)::next).limit(draws);
  }

  /**
   * Compiles and measures.
   *
   * @param before tables of an earlier run, by file name; only what they lack is measured
   * @return file names below the folder of cost tables, and their text
   * @throws IOException if the compiler refuses a module: a bug in a template
   */
  public SortedMap<String, String> run(Map<String, String> before) throws IOException {
    CostWriter writer = new CostWriter(compiler.version(), CrossCompiler.FLAGS);
    before.forEach((file, text) -> writer.keep(file, text, key -> !isDropped(file, key)));
    Path scratch = Files.createTempDirectory("ullage-calibrate");
    try {
      for (Measured measured : compileAll(witnesses(writer), scratch)) {
        Target target = measured.witness().target();
        for (String codeClass : Twins.thatTake(measured.witness().module(), target.codeClass())) {
          if (!writer.has(target.family().name(), codeClass, measured.witness().module())) {
            writer.add(
                target.family().name(),
                codeClass,
                measured.witness().module(),
                measured.object(),
                measured.oneMore());
          }
        }
      }
      for (Target target : targets) {
        writer.addStartUp(target, compiler.empty(target, scratch, support(target)));
      }
      for (Target target : onePer(Target::codeClass)) {
        writer.addHelpers(target.codeClass(), compiler.helpers(target));
      }
    } finally {
      delete(scratch);
    }
    return writer.files();
  }

  /** What the port brings for start-up; it is the same for all loops. */
  private List<EmittedFile> support(Target target) {
    return draws.stream()
        .map(loop -> Plan.of(loop, target))
        .flatMap(plan -> plan instanceof Plan.Possible p ? Stream.of(p) : Stream.empty())
        .findFirst()
        .map(possible -> Sources.support(possible.firmware()))
        .orElse(List.of());
  }

  /**
   * One target for each family, code class and choice of clocks; portable modules only once for
   * each class.
   */
  private List<Witness> witnesses(CostWriter writer) {
    Map<String, Map<String, Witness>> ports = new LinkedHashMap<>();
    Map<String, Map<String, Witness>> portable = new LinkedHashMap<>();
    for (Target target : onePer(each -> place(each) + ' ' + ways(each).keySet())) {
      Map<String, Witness> port = ports.computeIfAbsent(place(target), any -> new TreeMap<>());
      Map<String, Witness> ofClass =
          portable.computeIfAbsent(target.codeClass(), any -> new TreeMap<>());
      List<Long> clocks = List.copyOf(ways(target).values());
      for (int i = 0; i < draws.size(); i++) {
        Loop loop = withClock(draws.get(i), target, clocks, i);
        if (Plan.of(loop, target) instanceof Plan.Possible possible) {
          for (Module module : possible.firmware().modules()) {
            if (!writer.has(target.family().name(), target.codeClass(), module)) {
              (module.scope() == Module.Scope.PORT ? port : ofClass)
                  .putIfAbsent(module.key(), new Witness(loop, target, module));
            }
          }
        }
      }
    }
    List<Witness> all = new ArrayList<>();
    ports.values().forEach(port -> all.addAll(port.values()));
    portable.forEach(
        (codeClass, ofClass) ->
            ofClass.values().stream()
                .filter(each -> !isMeasuredOnTwin(each, codeClass, portable))
                .forEach(all::add));
    return all;
  }

  private static String place(Target target) {
    return target.family().name() + ' ' + target.codeClass();
  }

  /** Each way in which the program can set the clock, and the fastest that it makes. */
  private static SortedMap<String, Long> ways(Target target) {
    SortedMap<String, Long> ways = new TreeMap<>();
    target.clock().settings().forEach((hz, setting) -> ways.merge(setting.way(), hz, Math::max));
    return ways;
  }

  /** A drawn clock that the target has no setting for becomes one that it has, each in its turn. */
  private static Loop withClock(Loop loop, Target target, List<Long> clocks, int turn) {
    Board board = loop.board();
    boolean serves =
        clocks.isEmpty()
            || board.clockHz().isEmpty()
            || target.clock().settings().containsKey(board.clockHz().getAsLong());
    return serves
        ? loop
        : loop.with(board.with(OptionalLong.of(clocks.get(turn % clocks.size())), board.pins()));
  }

  private boolean isDropped(String file, String key) {
    int end = key.indexOf('[');
    return end > 0
        && anew.contains(key.substring(0, end))
        && targets.stream()
            .anyMatch(each -> CostWriter.isTableOf(file, each.family().name(), each.codeClass()));
  }

  private static boolean isMeasuredOnTwin(
      Witness witness, String codeClass, Map<String, Map<String, Witness>> portable) {
    String measured = Twins.measuredOn(witness.module(), codeClass);
    return !measured.equals(codeClass)
        && portable.getOrDefault(measured, Map.of()).containsKey(witness.module().key());
  }

  private Collection<Target> onePer(java.util.function.Function<Target, String> kind) {
    return targets.stream()
        .collect(Collectors.toMap(kind, each -> each, (first, second) -> first, TreeMap::new))
        .values();
  }

  private List<Measured> compileAll(List<Witness> witnesses, Path scratch) throws IOException {
    ExecutorService workers =
        Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
    try {
      List<Future<Measured>> results = new ArrayList<>();
      for (int i = 0; i < witnesses.size(); i++) {
        Witness witness = witnesses.get(i);
        Path folder = scratch.resolve("module-" + i);
        results.add(workers.submit(() -> measure(witness, folder)));
      }
      List<Measured> measured = new ArrayList<>();
      for (Future<Measured> result : results) {
        measured.add(result.get());
        progress.accept(measured.size(), witnesses.size());
      }
      return measured;
    } catch (ExecutionException e) {
      if (e.getCause() instanceof IOException failed) {
        throw failed;
      }
      throw new IllegalStateException(e.getCause());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("Interrupted.", e);
    } finally {
      workers.shutdownNow();
      waitFor(workers);
    }
  }

  /** Nobody may write to the scratch folder while it is deleted. */
  private static void waitFor(ExecutorService workers) {
    try {
      workers.awaitTermination(1, TimeUnit.MINUTES);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private Measured measure(Witness witness, Path folder) throws IOException {
    ObjectFile object = compile(witness.loop(), witness.target(), witness.module(), folder);
    Map<String, ObjectFile> oneMore = new TreeMap<>();
    if (!witness.module().counts().isEmpty()) {
      // The bytes to ask are the one thing that is counted.
      Loop more = LoopDraw.withOneMoreToAsk(witness.loop());
      oneMore.put(
          witness.module().counts().firstKey(),
          compile(more, witness.target(), witness.module(), folder));
    }
    delete(folder);
    return new Measured(witness, object, oneMore);
  }

  private ObjectFile compile(Loop loop, Target target, Module module, Path folder)
      throws IOException {
    Plan plan = Plan.of(loop, target);
    Firmware firmware = ((Plan.Possible) plan).firmware();
    Module own = firmware.module(module.name()).orElseThrow();
    if (!own.key().equals(module.key())) {
      throw new IllegalStateException(module.key() + " became " + own.key());
    }
    for (EmittedFile file : Sources.toCompile(firmware, own)) {
      Path path = folder.resolve(file.path());
      Files.createDirectories(path.getParent());
      Files.writeString(path, file.text());
    }
    return compiler.compile(target, folder, Sources.path(own));
  }

  private static void delete(Path folder) {
    try (Stream<Path> all = Files.walk(folder)) {
      for (Path path : all.sorted(java.util.Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
