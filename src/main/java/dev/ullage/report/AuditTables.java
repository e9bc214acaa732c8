package dev.ullage.report;

import static dev.ullage.report.Table.Column.left;
import static dev.ullage.report.Table.Column.right;

import dev.ullage.audit.Audit;
import dev.ullage.audit.Elsewhere;
import dev.ullage.audit.Estimated;
import dev.ullage.audit.Figures;
import dev.ullage.audit.Fit;
import dev.ullage.audit.Growth;
import dev.ullage.audit.Growth.Change;
import dev.ullage.audit.LibraryUse;
import dev.ullage.audit.Measured;
import dev.ullage.audit.Piece;
import dev.ullage.audit.Stack;
import dev.ullage.measure.StackPath;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedMap;
import java.util.TreeMap;

/** What an audit found, as tables. */
final class AuditTables {
  private static final String NOTHING = "-";
  private static final int MOST_ROWS = 10;

  private AuditTables() {}

  /** {@code +12}, {@code -3} or {@code 0}. */
  static String signed(int bytes) {
    return bytes > 0 ? "+" + bytes : "" + bytes;
  }

  /** Each memory against everything that it can be held against. */
  static Table memories(Audit audit) {
    Figures figures = audit.measured().figures();
    Optional<Estimated> estimate = audit.estimated();
    Optional<Fit> fit = audit.fit();
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of(
            "flash",
            "" + figures.flash(),
            estimate.map(AuditTables::interval).orElse(NOTHING),
            audit.growth().map(g -> signed(g.flash())).orElse(NOTHING),
            fit.map(f -> "" + f.flashMargin()).orElse(NOTHING),
            number(audit.capacity().flash()),
            fit.map(f -> "" + f.flashLeft()).orElse(NOTHING)));
    if (figures.ramKnown()) {
      rows.add(
          List.of(
              "RAM: variables",
              "" + figures.staticRam(),
              estimate.map(e -> "" + e.staticRam()).orElse(NOTHING),
              audit.growth().map(g -> signed(g.ram())).orElse(NOTHING),
              "",
              "",
              ""));
      rows.add(
          List.of(
              "RAM: stack",
              stack(audit.measured().stack()),
              estimate.map(e -> "" + e.stack()).orElse(NOTHING),
              audit.growth().map(Growth::stack).map(AuditTables::signed).orElse(NOTHING),
              fit.map(f -> "" + f.ramMargin()).orElse(NOTHING),
              number(audit.capacity().ram()),
              fit.map(f -> "" + f.ramLeft()).orElse(NOTHING)));
    }
    if (figures.eeprom() > 0) {
      String of = number(audit.capacity().eeprom());
      rows.add(List.of("EEPROM", "" + figures.eeprom(), NOTHING, NOTHING, "", of, ""));
    }
    return new Table(
        List.of(
            left(""),
            right("built"),
            right("estimate"),
            right("grew"),
            right("margin"),
            right("of"),
            right("left")),
        rows);
  }

  private static String signed(OptionalInt bytes) {
    return bytes.isPresent() ? signed(bytes.getAsInt()) : NOTHING;
  }

  private static String number(OptionalInt bytes) {
    return bytes.isPresent() ? "" + bytes.getAsInt() : NOTHING;
  }

  private static String interval(Estimated estimate) {
    return estimate.flashLow() == estimate.flashHigh()
        ? "" + estimate.flashLow()
        : estimate.flashLow() + " to " + estimate.flashHigh();
  }

  static String stack(Stack stack) {
    return switch (stack.kind()) {
      case BOUND -> "" + stack.bytes();
      case AT_LEAST -> ">= " + stack.bytes();
      case UNBOUNDED -> "no bound";
      case UNKNOWN -> "unknown";
    };
  }

  /** Flash and RAM by module, with what each gained. */
  static Table modules(Audit audit) {
    SortedMap<String, Measured.Share> grew =
        audit.growth().map(Growth::modules).orElseGet(TreeMap::new);
    SortedMap<String, Measured.Share> modules = new TreeMap<>(audit.measured().modules());
    grew.keySet().forEach(gone -> modules.putIfAbsent(gone, new Measured.Share(0, 0)));
    List<List<String>> rows = new ArrayList<>();
    modules.entrySet().stream()
        .sorted(
            Comparator.comparingInt(
                (Map.Entry<String, Measured.Share> each) -> -each.getValue().flash()))
        .forEach(
            each -> {
              List<String> row = new ArrayList<>(row(each.getKey(), each.getValue()));
              if (audit.growth().isPresent()) {
                Measured.Share more = grew.getOrDefault(each.getKey(), new Measured.Share(0, 0));
                row.add(gained(more.flash()));
                row.add(gained(more.ram()));
              }
              rows.add(row);
            });
    List<Table.Column> columns = new ArrayList<>();
    columns.addAll(List.of(left("module"), right("flash"), right("RAM")));
    if (audit.growth().isPresent()) {
      columns.addAll(List.of(right("flash grew"), right("RAM grew")));
    }
    return new Table(columns, rows);
  }

  private static List<String> row(String name, Measured.Share share) {
    return List.of(name, "" + share.flash(), "" + share.ram());
  }

  private static String gained(int bytes) {
    return bytes == 0 ? "" : signed(bytes);
  }

  /** The names that take most. */
  static Table largest(Audit audit) {
    return new Table(
        List.of(left("largest"), left("object"), right("flash"), right("RAM")),
        audit.measured().pieces().stream()
            .filter(each -> each.flash() + each.ram() > 0)
            .sorted(Comparator.comparingInt(each -> -each.flash() - each.ram()))
            .limit(MOST_ROWS)
            .map(
                each ->
                    List.of(
                        cut(each.symbol(), 30),
                        cut(each.object(), 28),
                        "" + each.flash(),
                        "" + each.ram()))
            .toList());
  }

  /** What changed since the baseline. */
  static Table changes(Growth growth, int most) {
    return new Table(
        List.of(left("changed"), left("name"), left("object"), right("flash"), right("RAM")),
        growth.changes().stream()
            .limit(most)
            .map(
                each ->
                    List.of(
                        Style.word(each.how()),
                        cut(name(each), 30),
                        cut(each.piece().object(), 24),
                        signed(each.flash()),
                        signed(each.ram())))
            .toList());
  }

  private static String name(Change change) {
    return switch (change.how()) {
      case RENAMED -> change.piece().symbol() + ", was " + change.before();
      case MOVED -> change.piece().symbol() + ", was in " + change.before();
      default -> change.piece().symbol();
    };
  }

  /** From main to the deepest call, and how deep it is there. */
  static Table stackPath(List<StackPath.Step> path) {
    List<List<String>> rows = new ArrayList<>();
    int depth = 0;
    for (StackPath.Step step : path) {
      depth += step.bytes();
      rows.add(List.of(cut(step.function(), 50), "" + step.bytes(), "" + depth));
    }
    return new Table(List.of(left("deepest path"), right("stack"), right("so far")), rows);
  }

  /** Other parts that hold it. */
  static Table elsewhere(Audit audit, int most) {
    return new Table(
        List.of(
            left("also fits"),
            right("flash"),
            right("of"),
            right("left"),
            right("RAM of"),
            right("left"),
            left("registers"),
            left("package"),
            left("grade")),
        audit.elsewhere().stream().limit(most).map(AuditTables::part).toList());
  }

  private static List<String> part(Elsewhere each) {
    boolean exact = each.flash().low() == each.flash().high();
    return List.of(
        each.target().name(),
        exact ? "" + each.flash().likely() : "<= " + each.flash().high(),
        "" + each.target().flashBytes(),
        "" + each.flashLeft(),
        "" + each.target().ramBytes(),
        "" + each.ramLeft(),
        each.samePort() ? "same" : "other",
        each.samePackage() ? "same" : "other",
        Style.word(each.grade()));
  }

  /** Everything below each other, told apart by the first column. */
  static Table everything(Audit audit) {
    List<List<String>> rows = new ArrayList<>();
    audit
        .measured()
        .modules()
        .forEach(
            (name, share) ->
                rows.add(List.of("module", name, "", "" + share.flash(), "" + share.ram())));
    for (Piece each : audit.measured().pieces()) {
      rows.add(row("symbol", each.symbol(), each.object(), each.flash(), each.ram()));
    }
    for (Change each : audit.growth().map(Growth::changes).orElse(List.of())) {
      String how = Style.word(each.how());
      rows.add(row(how, each.piece().symbol(), each.piece().object(), each.flash(), each.ram()));
    }
    for (StackPath.Step each : audit.measured().stack().path()) {
      rows.add(row("stack", each.function(), "", 0, each.bytes()));
    }
    return new Table(
        List.of(left("part"), left("name"), left("object"), left("flash"), left("ram")), rows);
  }

  private static List<String> row(String part, String name, String object, int flash, int ram) {
    return List.of(part, name, object, "" + flash, "" + ram);
  }

  static String markdown(Audit audit) {
    StringBuilder page = new StringBuilder("# ");
    page.append(Markdown.text(AuditText.title(audit))).append("\n\n");
    page.append(Markdown.text(AuditLine.of(audit))).append("\n\n");
    page.append(Markdown.table(memories(audit))).append('\n');
    page.append(Markdown.table(modules(audit)));
    audit
        .growth()
        .filter(growth -> !growth.changes().isEmpty())
        .ifPresent(growth -> page.append('\n').append(Markdown.table(changes(growth, 30))));
    if (!audit.measured().stack().path().isEmpty()) {
      page.append('\n').append(Markdown.table(stackPath(audit.measured().stack().path())));
    }
    for (LibraryUse each : audit.libraries()) {
      page.append("\n- ").append(Markdown.text(AuditText.use(each)));
    }
    page.append(audit.libraries().isEmpty() ? "" : "\n");
    if (!audit.elsewhere().isEmpty()) {
      page.append('\n').append(Markdown.table(elsewhere(audit, MOST_ROWS)));
    }
    audit.notes().forEach(note -> page.append("\n- ").append(Markdown.text(note)).append(".\n"));
    return page.toString();
  }

  private static String cut(String name, int most) {
    String shown = dev.ullage.input.Printable.of(name);
    return shown.length() <= most
        ? shown
        : shown.substring(0, most / 2 - 1) + ".." + shown.substring(shown.length() - most / 2 + 1);
  }
}
