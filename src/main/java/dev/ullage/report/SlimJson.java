package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.slim.Saving;
import dev.ullage.slim.SlimSet;
import java.io.IOException;
import java.util.Locale;
import java.util.Optional;

/** The way to make a loop fit, for a program. */
final class SlimJson {
  private final SlimReport report;
  private final JsonGenerator json;

  private SlimJson(SlimReport report, JsonGenerator json) {
    this.report = report;
    this.json = json;
  }

  static String of(SlimReport report) {
    return Json.object(json -> new SlimJson(report, json).write());
  }

  private void write() throws IOException {
    json.writeStringField("schema", "ullage/slim/1");
    json.writeStringField("loop", report.slimming().loop().name());
    new AssessmentJson(json).write(report.asItIs());
    json.writeStringField("outcome", report.slimming().outcome().name().toLowerCase(Locale.ROOT));
    json.writeBooleanField("cheapest", report.slimming().cheapest());
    json.writeNumberField("trials", report.slimming().trials());
    json.writeArrayFieldStart("sets");
    int number = 0;
    for (SlimSet set : report.slimming().sets()) {
      write(set, report.slimmed().get(number++));
    }
    json.writeEndArray();
    json.writeArrayFieldStart("near");
    for (NearPart part : report.near()) {
      write(part);
    }
    json.writeEndArray();
  }

  private void write(SlimSet set, Assessment slimmed) throws IOException {
    json.writeStartObject();
    json.writeNumberField("weight", set.weight());
    json.writeArrayFieldStart("changes");
    for (SlimSet.Step step : set.steps()) {
      write(step);
    }
    json.writeEndArray();
    saves(set.together());
    new AssessmentJson(json).write(slimmed);
    json.writeEndObject();
  }

  private void write(SlimSet.Step step) throws IOException {
    json.writeStartObject();
    json.writeStringField("aspect", step.change().aspect().word());
    json.writeStringField("key", step.change().key());
    json.writeStringField("from", step.change().from());
    json.writeStringField("to", step.change().to());
    json.writeNumberField("weight", step.change().weight());
    json.writeStringField("loss", step.loss());
    saves(step.alone());
    json.writeEndObject();
  }

  private void saves(Optional<Saving> saving) throws IOException {
    if (saving.isEmpty()) {
      json.writeNullField("saves");
      return;
    }
    json.writeObjectFieldStart("saves");
    json.writeNumberField("flash", saving.get().flash());
    json.writeNumberField("ram", saving.get().ram());
    json.writeNumberField("stack", saving.get().stack());
    json.writeEndObject();
  }

  private void write(NearPart part) throws IOException {
    json.writeStartObject();
    new AssessmentJson(json).write(part.row());
    json.writeBooleanField("same_family", part.sameFamily());
    json.writeStringField("same_package", part.samePackage().orElse(null));
    json.writeEndObject();
  }
}
