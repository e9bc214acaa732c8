package dev.ullage.report;

import dev.ullage.audit.Audit;
import dev.ullage.audit.Growth;
import dev.ullage.audit.LibraryUse;
import dev.ullage.audit.Stack;
import dev.ullage.input.Printable;
import dev.ullage.report.MemoryBar.Piece;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** The audit for a person: the answer first, then what grew, then what is there. */
final class AuditText {
  private static final int MOST_CHANGES = 12;
  private static final int MOST_PARTS = 6;
  private static final int NAMED_ROUTINES = 4;

  private final Audit audit;
  private final Style style;
  private final List<String> lines = new ArrayList<>();

  AuditText(Audit audit, Style style) {
    this.audit = audit;
    this.style = style;
  }

  /** What was audited. */
  static String title(Audit audit) {
    String what = Printable.of(audit.loop().orElse(audit.subject()));
    return audit
        .target()
        .map(target -> what + " on " + target.title() + " (" + target.core() + ")")
        .orElse(what);
  }

  String text() {
    add("", title(audit) + ", as built, in bytes:");
    lines.add("");
    addVerdict();
    add(AuditTables.memories(audit));
    MemoryMap.of(audit).ifPresent(this::addBars);
    audit.growth().ifPresent(this::addGrowth);
    add(AuditTables.modules(audit));
    add(AuditTables.largest(audit));
    addStack(audit.measured().stack());
    addLibraries();
    addElsewhere();
    addNotes();
    return lines.stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private void addVerdict() {
    audit
        .fit()
        .ifPresentOrElse(
            fit -> {
              String word = Style.word(fit.verdict().kind());
              String reason = Printable.of(fit.verdict().reason()) + ".";
              List<String> wrapped = Paragraph.lines(word + ": ", reason, style.columns());
              String painted = style.verdict(fit.verdict().kind(), 0);
              lines.add(painted + wrapped.get(0).substring(word.length()));
              lines.addAll(wrapped.subList(1, wrapped.size()));
            },
            () -> add("", "No part was named, so these are sizes only; `-t PART` says one."));
    audit.exceeded().forEach(limit -> add("above a limit: ", limit + "."));
  }

  private void addBars(MemoryMap map) {
    lines.add("");
    List<String> legend = new ArrayList<>();
    for (MemoryMap.Memory memory : map.memories()) {
      String name = "%-6s".formatted(memory.name());
      List<Piece> pieces = new ArrayList<>();
      for (MemoryMap.Region region : memory.regions()) {
        pieces.add(new Piece(region.letter(), region.bytes()));
        legend.add(region.letter() + " " + region.name());
      }
      MemoryBar bar = new MemoryBar(memory.capacity(), pieces);
      lines.add(name + bar.draw(style.columns() - name.length()));
    }
    legend.add(". left");
    legend.add("! too much");
    add("      ", legend.stream().distinct().collect(Collectors.joining(", ")));
  }

  private void addGrowth(Growth growth) {
    lines.add("");
    long same = growth.changes().stream().filter(c -> c.flash() == 0 && c.ram() == 0).count();
    if (growth.changes().isEmpty()) {
      add("", "Nothing changed since the baseline.");
      return;
    }
    add(
        "",
        "Since the baseline: flash "
            + AuditTables.signed(growth.flash())
            + ", variables "
            + AuditTables.signed(growth.ram())
            + (growth.stack().isPresent()
                ? ", stack " + AuditTables.signed(growth.stack().getAsInt())
                : "")
            + (same > 0 ? "; " + same + " only moved or renamed" : "")
            + ".");
    add(AuditTables.changes(growth, MOST_CHANGES));
    int more = growth.changes().size() - MOST_CHANGES;
    if (more > 0) {
      add("", "and " + more + " smaller changes; `--format csv` has them all.");
    }
  }

  private void addStack(Stack stack) {
    if (!stack.path().isEmpty()) {
      add(AuditTables.stackPath(stack.path()));
    }
    if (!stack.isBound()) {
      lines.add("");
      String what =
          switch (stack.kind()) {
            case AT_LEAST -> "The stack may be deeper";
            case UNBOUNDED -> "The stack has no bound";
            default -> "The stack is not known";
          };
      add("", what + ": " + Printable.of(stack.why()) + ".");
    }
  }

  private void addLibraries() {
    boolean compare = audit.growth().isPresent();
    List<LibraryUse> shown =
        audit.libraries().stream().filter(each -> each.isNew() || !compare).toList();
    for (LibraryUse each : shown) {
      lines.add("");
      add(each.isNew() ? "came in: " : "library: ", use(each));
    }
  }

  /** One kind of library code in words. */
  static String use(LibraryUse use) {
    List<String> routines = use.symbols().stream().limit(NAMED_ROUTINES).toList();
    int more = use.symbols().size() - routines.size();
    String names = String.join(", ", routines) + (more > 0 ? " and " + more + " more" : "");
    String asked =
        use.askedBy().isEmpty() ? "" : ", asked for by " + String.join(", ", use.askedBy());
    return Printable.of(
        use.bytes()
            + " B for "
            + use.reason()
            + " ("
            + names
            + ")"
            + asked
            + ". Cheaper: "
            + use.cheaper()
            + ".");
  }

  private void addElsewhere() {
    if (audit.elsewhere().isEmpty()) {
      return;
    }
    add(AuditTables.elsewhere(audit, MOST_PARTS));
    int more = audit.elsewhere().size() - MOST_PARTS;
    if (more > 0) {
      add("", "and " + more + " more; `--format json` has them all.");
    }
  }

  private void addNotes() {
    Optional<String> compiler = audit.measured().compiler();
    if (compiler.isPresent() || !audit.notes().isEmpty()) {
      lines.add("");
    }
    compiler.ifPresent(words -> add("built with ", Printable.of(words) + "."));
    audit.notes().forEach(note -> add("note  ", Printable.of(note) + "."));
  }

  private void add(Table table) {
    lines.add("");
    TextTable text = new TextTable(table, style.columns());
    lines.addAll(text.title());
    lines.addAll(text.rows());
  }

  private void add(String head, String text) {
    lines.addAll(Paragraph.lines(head, text, style.columns()));
  }
}
