package dev.ullage.sizing;

import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Module;
import dev.ullage.loop.Bring;
import dev.ullage.loop.Loop;
import dev.ullage.loop.Margin;
import dev.ullage.sizing.Estimate.Grade;
import dev.ullage.sizing.Estimate.Interval;
import dev.ullage.target.ListedPart;
import dev.ullage.target.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/** Estimates plans from cost tables. One instance serves many loops and targets, and threads. */
public final class Sizing {

  /**
   * Two sets of modules with the same rows and helpers link to the same program. A table gives the
   * same row as the same object each time, so rows need not be compared any deeper.
   */
  private record Linked(
      List<CostRow> rows, Optional<CostTable> helpers, int returnAddressBytes, Machine machine) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Linked set
          && rows.equals(set.rows)
          && helpers.equals(set.helpers)
          && returnAddressBytes == set.returnAddressBytes
          && machine == set.machine;
    }

    @Override
    public int hashCode() {
      return 31 * (31 * rows.hashCode() + helpers.hashCode()) + returnAddressBytes;
    }
  }

  /** Modules found in the tables, and linked. */
  private record Found(List<Neighbour> rows, Linking linking) {}

  /**
   * Modules, and where they are looked for. Parts that share a plan share its modules as one
   * object, so a survey asks the same again and again; what is equal but another object is found
   * anew.
   */
  private record Asked(
      List<Module> modules, CostTable portable, CostTable port, int returnAddressBytes) {
    @Override
    public boolean equals(Object other) {
      return other instanceof Asked asked
          && modules == asked.modules
          && portable == asked.portable
          && port == asked.port
          && returnAddressBytes == asked.returnAddressBytes;
    }

    @Override
    public int hashCode() {
      return 31 * System.identityHashCode(modules) + System.identityHashCode(port);
    }
  }

  private final CostTables tables;
  private final Map<String, Optional<Shelf>> shelves = new ConcurrentHashMap<>();
  private final Map<Linked, Linking> linked = new ConcurrentHashMap<>();
  private final Map<Asked, Optional<Found>> found = new ConcurrentHashMap<>();

  public Sizing(CostTables tables) {
    this.tables = tables;
  }

  /**
   * What a plan needs on its target. Where nothing was measured that comes near, the estimate is of
   * grade {@code LISTED} and empty.
   *
   * @throws IllegalStateException where the tables lack a function that their own rows call
   */
  public Estimate estimate(Target target, List<Module> modules, List<Buffer> buffers) {
    return resolve(target, modules)
        .map(found -> found.estimate(modules, buffers))
        .orElseGet(
            () ->
                new Estimate(
                    Grade.LISTED, new Interval(0, 0, 0), 0, 0, List.of(), buffers, List.of()));
  }

  /** Finds modules in the tables of a target; empty where nothing comes near one of them. */
  public Optional<Resolved> resolve(Target target, List<Module> modules) {
    return shelves
        .computeIfAbsent(target.name(), any -> Shelf.of(tables, target))
        .flatMap(shelf -> resolve(shelf, target, modules));
  }

  private Optional<Resolved> resolve(Shelf shelf, Target target, List<Module> modules) {
    return found
        .computeIfAbsent(
            new Asked(modules, shelf.portable(), shelf.port(), target.returnAddressBytes()),
            any -> find(shelf, target, modules))
        .map(known -> new Resolved(known.linking(), known.rows(), shelf));
  }

  private Optional<Found> find(Shelf shelf, Target target, List<Module> modules) {
    List<Neighbour> found = new ArrayList<>(modules.size());
    List<CostRow> rows = new ArrayList<>(modules.size());
    boolean exact = true;
    for (Module module : modules) {
      Optional<Neighbour> row = Neighbour.find(shelf.table(module), module.key());
      if (row.isEmpty()) {
        return Optional.empty();
      }
      found.add(row.get());
      rows.add(row.get().row());
      exact &= row.get().exact();
    }
    Linking linking =
        linked.computeIfAbsent(
            new Linked(
                rows, shelf.helpers(), target.returnAddressBytes(), Machine.of(shelf.codeClass())),
            Sizing::link);
    if (exact && !linking.missing().isEmpty()) {
      throw new IllegalStateException(
          "The cost tables of "
              + shelf.codeClass()
              + " lack "
              + String.join(", ", linking.missing())
              + ".");
    }
    return Optional.of(new Found(found, linking));
  }

  /**
   * Whether an estimate fits its target, with what the user brings and what must stay free.
   *
   * @param driver name of the bus driver, for the sentence
   */
  public static Verdict verdict(
      Target target, Estimate estimate, Bring bring, Margin margin, String driver) {
    return new Judgement(target, estimate, bring, margin, driver).verdict();
  }

  /** Whether a part without a port can be ruled out by its limits. */
  public static Verdict verdict(Loop loop, ListedPart part) {
    return new ListedJudgement(loop, part).verdict();
  }

  private static Linking link(Linked set) {
    return new Linking(set.rows(), set.helpers(), set.returnAddressBytes(), set.machine());
  }
}
