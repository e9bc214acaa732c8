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
  private final TextPage page;

  AuditText(Audit audit, Style style) {
    this.audit = audit;
    this.page = new TextPage(style);
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
    page.prose("", title(audit) + ", as built, in bytes:");
    page.gap();
    addVerdict();
    page.section(AuditTables.memories(audit));
    MemoryMap.of(audit).ifPresent(this::addBars);
    audit.growth().ifPresent(this::addGrowth);
    page.section(AuditTables.modules(audit));
    page.section(AuditTables.largest(audit));
    addStack(audit.measured().stack());
    addLibraries();
    addElsewhere();
    addNotes();
    return page.text();
  }

  private void addVerdict() {
    audit
        .fit()
        .ifPresentOrElse(
            fit -> page.verdict(fit.verdict()),
            () ->
                page.prose("", "No part was named, so these are sizes only; `-t PART` says one."));
    audit.exceeded().forEach(limit -> page.prose("above a limit: ", limit + "."));
  }

  private void addBars(MemoryMap map) {
    page.gap();
    List<String> legend = new ArrayList<>();
    for (MemoryMap.Memory memory : map.memories()) {
      String name = "%-6s".formatted(memory.name());
      List<Piece> pieces = new ArrayList<>();
      for (MemoryMap.Region region : memory.regions()) {
        pieces.add(new Piece(region.letter(), region.bytes()));
        legend.add(region.letter() + " " + region.name());
      }
      MemoryBar bar = new MemoryBar(memory.capacity(), pieces);
      page.bar(name, bar);
    }
    legend.add(". left");
    legend.add("! too much");
    page.prose("      ", legend.stream().distinct().collect(Collectors.joining(", ")));
  }

  private void addGrowth(Growth growth) {
    page.gap();
    long same = growth.changes().stream().filter(c -> c.flash() == 0 && c.ram() == 0).count();
    if (growth.changes().isEmpty()) {
      page.prose("", "Nothing changed since the baseline.");
      return;
    }
    page.prose(
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
    page.section(AuditTables.changes(growth, MOST_CHANGES));
    int more = growth.changes().size() - MOST_CHANGES;
    if (more > 0) {
      page.prose("", "and " + more + " smaller changes; `--format csv` has them all.");
    }
  }

  private void addStack(Stack stack) {
    if (!stack.path().isEmpty()) {
      page.section(AuditTables.stackPath(stack.path()));
    }
    if (!stack.isBound()) {
      page.gap();
      String what =
          switch (stack.kind()) {
            case AT_LEAST -> "The stack may be deeper";
            case UNBOUNDED -> "The stack has no bound";
            default -> "The stack is not known";
          };
      page.prose("", what + ": " + Printable.of(stack.why()) + ".");
    }
  }

  private void addLibraries() {
    boolean compare = audit.growth().isPresent();
    List<LibraryUse> shown =
        audit.libraries().stream().filter(each -> each.isNew() || !compare).toList();
    for (LibraryUse each : shown) {
      page.gap();
      page.prose(each.isNew() ? "came in: " : "library: ", use(each));
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
    page.section(AuditTables.elsewhere(audit, MOST_PARTS));
    int more = audit.elsewhere().size() - MOST_PARTS;
    if (more > 0) {
      page.prose("", "and " + more + " more; `--format json` has them all.");
    }
  }

  private void addNotes() {
    Optional<String> compiler = audit.measured().compiler();
    if (compiler.isPresent() || !audit.notes().isEmpty()) {
      page.gap();
    }
    compiler.ifPresent(words -> page.prose("built with ", Printable.of(words) + "."));
    audit.notes().forEach(note -> page.prose("note  ", Printable.of(note) + "."));
  }
}
