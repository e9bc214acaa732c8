package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board;
import dev.ullage.sizing.Estimate;
import dev.ullage.target.Pin;
import java.io.IOException;
import java.util.Map;

/** The budget for programs: the fields of the survey, and the parts that they are made of. */
final class BudgetJson {
  private final JsonGenerator json;

  private BudgetJson(JsonGenerator json) {
    this.json = json;
  }

  static String of(Budget budget) {
    return Json.object(json -> new BudgetJson(json).write(budget));
  }

  private void write(Budget budget) throws IOException {
    json.writeStringField("schema", "ullage/budget/1");
    json.writeStringField("loop", budget.loop().name());
    new AssessmentJson(json).write(budget.assessment());
    json.writeObjectFieldStart("bring");
    json.writeNumberField("flash", budget.loop().bring().flashBytes());
    json.writeNumberField("ram", budget.loop().bring().ramBytes());
    json.writeNumberField("stack", budget.loop().bring().stackBytes());
    json.writeEndObject();
    json.writeObjectFieldStart("margin");
    json.writeNumberField("flash", budget.flashMargin());
    json.writeNumberField("ram", budget.loop().margin().ramBytes());
    json.writeEndObject();
    if (budget.assessment().estimate().isPresent()) {
      parts(budget.assessment().estimate().get());
    }
    if (budget.assessment().plan().isPresent()) {
      choices(budget.assessment().plan().get());
    }
  }

  private void parts(Estimate estimate) throws IOException {
    json.writeArrayFieldStart("modules");
    for (Estimate.Part part : estimate.modules()) {
      json.writeStartObject();
      json.writeStringField("name", part.name());
      json.writeNumberField("flash", part.flash());
      json.writeNumberField("ram", part.ram());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("buffers");
    for (Buffer buffer : estimate.buffers()) {
      json.writeStartObject();
      json.writeStringField("name", buffer.name());
      json.writeStringField("module", buffer.module());
      json.writeStringField("symbol", buffer.symbol());
      json.writeNumberField("bytes", buffer.bytes());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("stack_path");
    for (Estimate.Step step : estimate.stackPath()) {
      json.writeStartObject();
      json.writeStringField("function", step.function());
      json.writeNumberField("bytes", step.bytes());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void choices(Firmware plan) throws IOException {
    json.writeStringField("bus_driver_reason", plan.bus().why());
    json.writeNumberField("clock_hz", plan.clock().hz());
    json.writeObjectFieldStart("pins");
    for (Map.Entry<Board.Role, Pin> pin : plan.pins().entrySet()) {
      json.writeStringField(Style.word(pin.getKey()), pin.getValue().name());
    }
    json.writeEndObject();
    json.writeArrayFieldStart("notes");
    for (String note : plan.notes()) {
      json.writeString(note);
    }
    json.writeEndArray();
  }
}
