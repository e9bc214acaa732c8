package dev.ullage.sizing;

import dev.ullage.firmware.Module;
import dev.ullage.measure.LinkedProgram;
import dev.ullage.measure.ObjectFile;
import dev.ullage.measure.Symbol;
import dev.ullage.target.Target;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;

/** Collects measurements and writes them as cost tables: the same measurements, the same bytes. */
public final class CostWriter {
  private final String header;
  private final SortedMap<String, SortedMap<String, String>> files = new TreeMap<>();
  private final Map<String, String> headersBefore = new HashMap<>();
  private final Set<String> added = new HashSet<>();
  private final Map<String, Map<String, CostRow>> helpers = new HashMap<>();
  private final Map<String, Set<String>> wanted = new HashMap<>();

  /**
   * @param compiler name and version, in one line
   * @param flags as the compiler was given them
   */
  public CostWriter(String compiler, List<String> flags) {
    this.header =
        CostTable.title()
            + "# compiler: "
            + compiler
            + "\n# flags: "
            + String.join(" ", flags)
            + '\n';
  }

  /**
   * Keeps rows of a table that was written before.
   *
   * @param file its name
   * @param keys which rows
   * @throws dev.ullage.input.InputException with the lines that are wrong
   */
  public void keep(String file, String text, Predicate<String> keys) {
    CostCheck.checked(file, text);
    headersBefore.put(
        file,
        text.lines()
            .takeWhile(line -> line.startsWith("#"))
            .map(line -> line + '\n')
            .collect(Collectors.joining()));
    Map<String, String> before = new HashMap<>();
    for (String line : text.lines().filter(each -> !each.startsWith("#")).toList()) {
      String[] row = line.split("\t", 2);
      String fields = row[1].startsWith("=") ? before.get(row[1].substring(1)) : row[1];
      before.put(row[0], fields);
      if (keys.test(row[0])) {
        files.computeIfAbsent(file, any -> new TreeMap<>()).put(row[0], fields);
      }
    }
  }

  /** Whether a module has its row already. */
  public boolean has(String family, String codeClass, Module module) {
    return files
        .getOrDefault(file(family, codeClass, module), new TreeMap<>())
        .containsKey(module.key());
  }

  /** Whether a table is that of these ports or that of this core. */
  public static boolean isTableOf(String file, String family, String codeClass) {
    return file.equals(CostTables.portFile(family, codeClass))
        || file.equals(CostTables.portableFile(codeClass));
  }

  private static String file(String family, String codeClass, Module module) {
    return module.scope() == Module.Scope.PORT
        ? CostTables.portFile(family, codeClass)
        : CostTables.portableFile(codeClass);
  }

  /**
   * Adds a module as it was compiled.
   *
   * @param family of the port; has no effect on a portable module
   * @param compiled with the counts of {@code module}
   * @param oneMore for each count, compiled with that count one higher
   * @throws IllegalArgumentException where a function has no bound on its stack, or a step changes
   *     more than sizes
   */
  public void add(
      String family,
      String codeClass,
      Module module,
      ObjectFile compiled,
      Map<String, ObjectFile> oneMore) {
    List<CostRow.Cost> costs = new ArrayList<>();
    for (Symbol symbol : compiled.symbols()) {
      costs.add(cost(module, symbol, oneMore));
    }
    String file = file(family, codeClass, module);
    CostRow row = new CostRow(module.key(), costs, compiled.needs());
    put(file, row.key(), row.text());
    Set<String> names = wanted.computeIfAbsent(codeClass, any -> new HashSet<>());
    names.addAll(row.needs());
    compiled.symbols().forEach(each -> each.edges().forEach(edge -> names.add(edge.target())));
  }

  /**
   * Adds a library; of its functions only those are written that the modules of this class lead to.
   * Where two libraries have a function, the one that was added first counts.
   */
  public void addHelpers(String codeClass, List<ObjectFile> library) {
    Map<String, CostRow> rows = helpers.computeIfAbsent(codeClass, any -> new HashMap<>());
    for (ObjectFile member : library) {
      for (Symbol symbol : member.symbols()) {
        CostRow.Cost cost = bare(symbol, symbol.bytes(), new TreeMap<>(), Sites.of(symbol));
        rows.putIfAbsent(symbol.name(), new CostRow(symbol.name(), List.of(cost), member.needs()));
      }
    }
  }

  /**
   * Adds the start-up of a target.
   *
   * @param empty a program in which {@code main} does nothing
   */
  public void addStartUp(Target target, LinkedProgram empty) {
    int grain = Machine.of(target.codeClass()).grain();
    int main = Machine.roundUp(empty.symbol("main").orElseThrow().bytes(), grain);
    put(
        CostTables.startUpFile(target.toolchain()),
        target.name(),
        target.codeClass()
            + '\t'
            + (empty.flashBytes() - main)
            + '\t'
            + target.vectors() * target.vectorBytes());
  }

  /** File names and what goes into them. */
  public SortedMap<String, String> files() {
    SortedMap<String, SortedMap<String, String>> all = new TreeMap<>(files);
    for (String each : helpers.keySet()) {
      SortedMap<String, String> rows = helperRows(each);
      rows.putAll(all.getOrDefault(CostTables.helperFile(each), new TreeMap<>()));
      all.put(CostTables.helperFile(each), rows);
    }
    SortedMap<String, String> texts = new TreeMap<>();
    all.forEach((file, rows) -> texts.put(file, header(file) + text(rows)));
    return texts;
  }

  /** A table that nothing was added to still is what another compiler may have made. */
  private String header(String file) {
    return added.contains(file) ? header : headersBefore.getOrDefault(file, header);
  }

  private SortedMap<String, String> helperRows(String codeClass) {
    Map<String, CostRow> library = helpers.getOrDefault(codeClass, Map.of());
    SortedMap<String, String> rows = new TreeMap<>();
    Deque<String> work = new ArrayDeque<>(wanted.getOrDefault(codeClass, Set.of()));
    while (!work.isEmpty()) {
      CostRow row = library.get(work.pop());
      if (row != null && rows.put(row.key(), row.text()) == null) {
        work.addAll(row.needs());
        row.costs().forEach(cost -> cost.symbol().edges().forEach(e -> work.add(e.target())));
        requireBound(row.costs().get(0).symbol());
      }
    }
    return rows;
  }

  /** Rows that say the same are written once; the others point there. */
  private static String text(SortedMap<String, String> rows) {
    Map<String, String> first = new HashMap<>();
    StringBuilder text = new StringBuilder();
    rows.forEach(
        (key, fields) -> {
          String same = first.putIfAbsent(fields, key);
          boolean shorter = same != null && same.length() + 1 < fields.length();
          text.append(key).append('\t').append(shorter ? '=' + same : fields).append('\n');
        });
    return text.toString();
  }

  private CostRow.Cost cost(Module module, Symbol symbol, Map<String, ObjectFile> oneMore) {
    requireBound(symbol);
    SortedMap<String, Integer> steps = new TreeMap<>();
    int bytes = symbol.bytes();
    List<Site> sites = Sites.of(symbol);
    for (Map.Entry<String, ObjectFile> more : oneMore.entrySet()) {
      Symbol other = counterpart(symbol, more.getValue());
      int step = other.bytes() - symbol.bytes();
      if (step != 0) {
        int count = module.counts().getOrDefault(more.getKey(), 0);
        steps.put(more.getKey(), step);
        bytes -= step * count;
        sites = Sites.of(symbol, more.getKey(), count, other);
      }
    }
    return bare(symbol, bytes, steps, sites);
  }

  private static CostRow.Cost bare(
      Symbol symbol, int bytes, SortedMap<String, Integer> steps, List<Site> sites) {
    Symbol bare =
        new Symbol(
            symbol.name(),
            symbol.local(),
            symbol.kind(),
            bytes,
            symbol.ownStack(),
            Sites.bare(symbol.edges()),
            symbol.unbounded(),
            symbol.place());
    return new CostRow.Cost(bare, steps, sites);
  }

  private static Symbol counterpart(Symbol symbol, ObjectFile more) {
    Symbol other =
        more.symbols().stream()
            .filter(each -> each.name().equals(symbol.name()))
            .findFirst()
            .orElseThrow(
                () -> new IllegalArgumentException("A step removes `" + symbol.name() + "`."));
    if (other.ownStack() != symbol.ownStack()
        || !Sites.bare(other.edges()).equals(Sites.bare(symbol.edges()))) {
      throw new IllegalArgumentException(
          "A step changes more than the size of `" + symbol.name() + "`.");
    }
    return other;
  }

  private static void requireBound(Symbol symbol) {
    symbol
        .unbounded()
        .ifPresent(
            why -> {
              throw new IllegalArgumentException("There is no bound on the stack: " + why + ".");
            });
  }

  private void put(String file, String key, String fields) {
    String before = files.computeIfAbsent(file, any -> new TreeMap<>()).put(key, fields);
    added.add(file);
    if (before != null && !before.equals(fields)) {
      throw new IllegalArgumentException(
          "`" + key + "` was measured twice with different results:\n" + before + '\n' + fields);
    }
  }
}
