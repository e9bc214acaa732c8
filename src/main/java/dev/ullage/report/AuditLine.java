package dev.ullage.report;

import dev.ullage.audit.Audit;
import dev.ullage.audit.Figures;
import dev.ullage.audit.Growth;
import dev.ullage.audit.Stack;
import java.util.OptionalInt;

/** An audit in one line. */
final class AuditLine {
  private AuditLine() {}

  static String of(Audit audit) {
    Figures figures = audit.measured().figures();
    StringBuilder line = new StringBuilder();
    audit.fit().ifPresent(fit -> line.append(Style.word(fit.verdict().kind())).append(": "));
    line.append("flash ").append(figures.flash()).append(of(audit.capacity().flash()));
    audit.growth().ifPresent(growth -> line.append(signed(growth.flash())));
    if (figures.ramKnown()) {
      line.append(", RAM ").append(figures.staticRam()).append(" + ");
      line.append(stack(audit.measured().stack())).append(of(audit.capacity().ram()));
      audit.growth().map(Growth::ram).ifPresent(ram -> line.append(signed(ram)));
    }
    audit.exceeded().forEach(limit -> line.append("; ").append(limit));
    return line.toString();
  }

  private static String of(OptionalInt capacity) {
    return capacity.isPresent() ? " of " + capacity.getAsInt() + " B" : " B";
  }

  private static String signed(int bytes) {
    return " (" + AuditTables.signed(bytes) + ")";
  }

  private static String stack(Stack stack) {
    return switch (stack.kind()) {
      case BOUND -> stack.bytes() + " stack";
      case AT_LEAST -> "at least " + stack.bytes() + " stack";
      case UNBOUNDED -> "stack without a bound";
      case UNKNOWN -> "unknown stack";
    };
  }
}
