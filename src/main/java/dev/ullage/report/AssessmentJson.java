package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import java.io.IOException;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;

/** The fields of one target that `survey` and `budget` have in common. */
final class AssessmentJson {
  private final JsonGenerator json;

  AssessmentJson(JsonGenerator json) {
    this.json = json;
  }

  /** The fields, into the object that is open. What is not known is null. */
  void write(Assessment row) throws IOException {
    json.writeStringField("target", row.target().name());
    json.writeStringField("family", row.target().familyName());
    json.writeStringField("core", row.target().core());
    json.writeStringField("grade", Style.word(row.grade()));
    json.writeStringField("verdict", Style.word(row.verdict().kind()));
    json.writeStringField("bus_driver", row.busDriver().orElse(null));
    json.writeStringField("limiting", row.verdict().limiting());
    json.writeStringField("reason", row.verdict().reason());
    flash(row);
    ram(row);
  }

  private void flash(Assessment row) throws IOException {
    json.writeObjectFieldStart("flash");
    OptionalInt capacity = row.target().flash();
    number("capacity", capacity.isPresent() ? capacity.getAsInt() : null);
    number("low", row.estimate().map(e -> e.flash().low()).orElse(null));
    number("likely", row.estimate().map(e -> e.flash().likely()).orElse(null));
    number("high", row.estimate().map(e -> e.flash().high()).orElse(null));
    number("headroom", row.headroom().map(Headroom::flash).orElse(null));
    json.writeEndObject();
  }

  private void ram(Assessment row) throws IOException {
    json.writeObjectFieldStart("ram");
    json.writeNumberField("capacity", row.target().ram());
    number("static", row.estimate().map(Estimate::staticRam).orElse(null));
    number("stack", row.estimate().map(Estimate::stack).orElse(null));
    number("headroom", row.headroom().map(Headroom::ram).orElse(null));
    json.writeEndObject();
  }

  private void number(String field, @Nullable Integer value) throws IOException {
    if (value == null) {
      json.writeNullField(field);
    } else {
      json.writeNumberField(field, value);
    }
  }
}
