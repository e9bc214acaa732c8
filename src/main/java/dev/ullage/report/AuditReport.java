package dev.ullage.report;

import dev.ullage.audit.Audit;
import java.util.ArrayList;
import java.util.List;

/** An audit in words, numbers and pictures. */
public record AuditReport(Audit audit) {

  /** The audit as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    return switch (format) {
      case TEXT -> new AuditText(audit, style).text();
      case JSON -> AuditJson.of(audit);
      case CSV -> Csv.of(AuditTables.everything(audit));
      case MD -> AuditTables.markdown(audit);
    };
  }

  /** One line for a commit status. */
  public String line() {
    return AuditLine.of(audit) + '\n';
  }

  /**
   * The memory map as a picture (SVG); without sizes of the memories there are only the modules.
   */
  public String picture() {
    List<MemoryMap.Memory> memories = new ArrayList<>();
    MemoryMap.of(audit).ifPresent(map -> memories.addAll(map.memories()));
    memories.add(MemoryMap.byModule(audit));
    return MemoryPicture.of(AuditText.title(audit), memories);
  }
}
