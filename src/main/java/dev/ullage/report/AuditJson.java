package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.audit.Audit;
import dev.ullage.audit.Elsewhere;
import dev.ullage.audit.Estimated;
import dev.ullage.audit.Figures;
import dev.ullage.audit.Fit;
import dev.ullage.audit.Growth;
import dev.ullage.audit.LibraryUse;
import dev.ullage.audit.Measured;
import dev.ullage.audit.Piece;
import dev.ullage.audit.Stack;
import dev.ullage.measure.StackPath;
import dev.ullage.sizing.Verdict;
import dev.ullage.target.Target;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;

/** The audit for programs: the fields of a budget, and what they were held against. */
final class AuditJson {
  private final JsonGenerator json;

  private AuditJson(JsonGenerator json) {
    this.json = json;
  }

  static String of(Audit audit) {
    return Json.object(json -> new AuditJson(json).write(audit));
  }

  private void write(Audit audit) throws IOException {
    json.writeStringField("schema", "ullage/audit/1");
    json.writeStringField("loop", audit.loop().orElse(null));
    json.writeStringField("target", audit.target().map(Target::name).orElse(null));
    json.writeStringField("family", audit.target().map(t -> t.familyName()).orElse(null));
    json.writeStringField("core", audit.measured().core().orElse(null));
    json.writeStringField("grade", Style.word(audit.grade()));
    Optional<Verdict> verdict = audit.fit().map(Fit::verdict);
    json.writeStringField("verdict", verdict.map(v -> Style.word(v.kind())).orElse(null));
    json.writeNullField("bus_driver");
    json.writeStringField("limiting", verdict.map(Verdict::limiting).orElse(null));
    json.writeStringField("reason", verdict.map(Verdict::reason).orElse(null));
    memories(audit);
    margin(audit);
    modules("modules", audit.measured().modules());
    buffers(audit.measured());
    stackPath(audit.measured().stack());
    measured(audit.measured());
    estimated(audit.estimated());
    baseline(audit.growth());
    texts("exceeded", audit.exceeded());
    libraries(audit.libraries());
    elsewhere(audit.elsewhere());
    texts("notes", audit.notes());
  }

  private void memories(Audit audit) throws IOException {
    int flash = audit.measured().figures().flash();
    json.writeObjectFieldStart("flash");
    number("capacity", audit.capacity().flash());
    json.writeNumberField("low", flash);
    json.writeNumberField("likely", flash);
    json.writeNumberField("high", flash);
    number("headroom", audit.fit().map(Fit::flashLeft).orElse(null));
    json.writeEndObject();
    json.writeObjectFieldStart("ram");
    number("capacity", audit.capacity().ram());
    staticRam(audit.measured().figures());
    stackBytes(audit.measured().stack());
    number("headroom", audit.fit().map(Fit::ramLeft).orElse(null));
    json.writeEndObject();
  }

  private void staticRam(Figures figures) throws IOException {
    number("static", figures.ramKnown() ? figures.staticRam() : null);
  }

  private void stackBytes(Stack stack) throws IOException {
    number("stack", stack.isBound() ? stack.bytes() : null);
  }

  private void margin(Audit audit) throws IOException {
    json.writeObjectFieldStart("margin");
    number("flash", audit.fit().map(Fit::flashMargin).orElse(null));
    number("ram", audit.fit().map(Fit::ramMargin).orElse(null));
    json.writeEndObject();
  }

  private void modules(String field, Map<String, Measured.Share> modules) throws IOException {
    json.writeArrayFieldStart(field);
    for (Map.Entry<String, Measured.Share> each : modules.entrySet()) {
      json.writeStartObject();
      json.writeStringField("name", each.getKey());
      json.writeNumberField("flash", each.getValue().flash());
      json.writeNumberField("ram", each.getValue().ram());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void buffers(Measured measured) throws IOException {
    json.writeArrayFieldStart("buffers");
    for (Piece each : measured.pieces()) {
      if (each.ram() > 0) {
        json.writeStartObject();
        json.writeStringField("name", each.symbol());
        json.writeStringField("module", each.module());
        json.writeStringField("symbol", each.symbol());
        json.writeNumberField("bytes", each.ram());
        json.writeEndObject();
      }
    }
    json.writeEndArray();
  }

  private void stackPath(Stack stack) throws IOException {
    json.writeArrayFieldStart("stack_path");
    for (StackPath.Step step : stack.path()) {
      json.writeStartObject();
      json.writeStringField("function", step.function());
      json.writeNumberField("bytes", step.bytes());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void measured(Measured measured) throws IOException {
    Figures figures = measured.figures();
    json.writeObjectFieldStart("measured");
    json.writeStringField("file", measured.file());
    json.writeStringField("compiler", measured.compiler().orElse(null));
    json.writeNumberField("flash", figures.flash());
    json.writeNumberField("vectors", figures.vectors());
    json.writeNumberField("code", figures.code());
    json.writeNumberField("constants", figures.constants());
    json.writeNumberField("data", figures.data());
    json.writeNumberField("zeroed", figures.zeroed());
    staticRam(figures);
    json.writeNumberField("reserved", figures.reserved());
    json.writeNumberField("eeprom", figures.eeprom());
    stackBytes(measured.stack());
    json.writeStringField("stack_is", Style.word(measured.stack().kind()));
    json.writeStringField("stack_why", measured.stack().why());
    texts("heap", measured.heap());
    json.writeArrayFieldStart("symbols");
    for (Piece each : measured.pieces()) {
      piece(each, each.flash(), each.ram());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  /** Begins an object; the caller ends it. */
  private void piece(Piece piece, int flash, int ram) throws IOException {
    json.writeStartObject();
    json.writeStringField("name", piece.symbol());
    json.writeStringField("object", piece.object());
    json.writeStringField("module", piece.module());
    json.writeStringField("kind", Style.word(piece.kind()));
    json.writeNumberField("flash", flash);
    json.writeNumberField("ram", ram);
  }

  private void estimated(Optional<Estimated> estimated) throws IOException {
    if (estimated.isEmpty()) {
      json.writeNullField("estimated");
      return;
    }
    json.writeObjectFieldStart("estimated");
    json.writeObjectFieldStart("flash");
    json.writeNumberField("low", estimated.get().flashLow());
    json.writeNumberField("likely", estimated.get().flashLikely());
    json.writeNumberField("high", estimated.get().flashHigh());
    json.writeEndObject();
    json.writeNumberField("static", estimated.get().staticRam());
    json.writeNumberField("stack", estimated.get().stack());
    json.writeEndObject();
  }

  private void baseline(Optional<Growth> growth) throws IOException {
    if (growth.isEmpty()) {
      json.writeNullField("baseline");
      return;
    }
    json.writeObjectFieldStart("baseline");
    json.writeNumberField("flash_grew", growth.get().flash());
    json.writeNumberField("ram_grew", growth.get().ram());
    number("stack_grew", growth.get().stack());
    modules("modules", growth.get().modules());
    modules("objects", growth.get().objects());
    json.writeArrayFieldStart("changes");
    for (Growth.Change each : growth.get().changes()) {
      piece(each.piece(), each.flash(), each.ram());
      json.writeStringField("how", Style.word(each.how()));
      json.writeStringField("before", each.before());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void libraries(List<LibraryUse> uses) throws IOException {
    json.writeArrayFieldStart("libraries");
    for (LibraryUse each : uses) {
      json.writeStartObject();
      json.writeStringField("reason", each.reason());
      json.writeStringField("cheaper", each.cheaper());
      json.writeNumberField("flash", each.bytes());
      json.writeBooleanField("new", each.isNew());
      texts("routines", each.symbols());
      texts("asked_by", each.askedBy());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void elsewhere(List<Elsewhere> parts) throws IOException {
    json.writeArrayFieldStart("elsewhere");
    for (Elsewhere each : parts) {
      json.writeStartObject();
      json.writeStringField("target", each.target().name());
      json.writeStringField("core", each.target().core());
      json.writeStringField("grade", Style.word(each.grade()));
      json.writeStringField("verdict", Style.word(each.verdict()));
      json.writeBooleanField("same_registers", each.samePort());
      json.writeBooleanField("same_package", each.samePackage());
      json.writeNumberField("flash_low", each.flash().low());
      json.writeNumberField("flash_likely", each.flash().likely());
      json.writeNumberField("flash_high", each.flash().high());
      json.writeNumberField("flash_headroom", each.flashLeft());
      json.writeNumberField("ram_headroom", each.ramLeft());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void texts(String field, List<String> texts) throws IOException {
    json.writeArrayFieldStart(field);
    for (String each : texts) {
      json.writeString(each);
    }
    json.writeEndArray();
  }

  private void number(String field, OptionalInt value) throws IOException {
    number(field, value.isPresent() ? value.getAsInt() : null);
  }

  private void number(String field, @Nullable Integer value) throws IOException {
    if (value == null) {
      json.writeNullField(field);
    } else {
      json.writeNumberField(field, value);
    }
  }
}
