package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.firmware.Buffer;
import dev.ullage.firmware.Firmware;
import dev.ullage.loop.Board;
import dev.ullage.loop.Bring;
import dev.ullage.sizing.Estimate;
import dev.ullage.sizing.Headroom;
import dev.ullage.target.Pin;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * The data of a survey's page. A row is an array with a place for each column; details and curves
 * are kept apart, and what many parts have in common is there once.
 */
final class SurveyPageJson {
  private static final List<String> COLUMNS =
      List.of(
          "name",
          "title",
          "family",
          "core",
          "packages",
          "supply",
          "megahertz",
          "busHardware",
          "grade",
          "verdict",
          "listedOnly",
          "driver",
          "limiting",
          "reason",
          "flash",
          "flashLow",
          "flashLikely",
          "flashHigh",
          "flashMargin",
          "flashLeft",
          "ram",
          "ramStatic",
          "stack",
          "ramLeft",
          "detail",
          "curve");

  private final SurveyPage page;
  private final Bring bring;
  private final JsonPool details = new JsonPool();
  private final JsonPool curves = new JsonPool();

  private SurveyPageJson(SurveyPage page) {
    this.page = page;
    this.bring = page.loop().bring();
  }

  /** An object that may stand between the tags of a script element. */
  static String of(SurveyPage page) {
    return Json.inHtml(json -> new SurveyPageJson(page).write(json));
  }

  private void write(JsonGenerator json) throws IOException {
    json.writeStringField("loop", page.loop().name());
    json.writeNumberField("flashBrought", bring.flashBytes());
    json.writeNumberField("ramBrought", bring.ramBytes() + bring.stackBytes());
    json.writeNumberField("ramMargin", page.loop().margin().ramBytes());
    json.writeArrayFieldStart("columns");
    for (String column : COLUMNS) {
      json.writeString(column);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("rows");
    for (Assessment row : page.survey().rows()) {
      row(json, row);
    }
    json.writeEndArray();
    details.writeTo(json, "details");
    curves.writeTo(json, "curves");
    axes(json);
  }

  private void row(JsonGenerator json, Assessment row) throws IOException {
    json.writeStartArray();
    for (Object cell : cells(row)) {
      cell(json, cell);
    }
    json.writeEndArray();
  }

  /** In the order of {@link #COLUMNS}; an empty one is null. */
  private List<Object> cells(Assessment row) throws IOException {
    Optional<Estimate> estimate = row.estimate();
    OptionalInt flash = row.target().flash();
    List<Object> cells = new ArrayList<>();
    cells.add(row.target().name());
    cells.add(row.target().title());
    cells.add(row.target().familyTitle());
    cells.add(row.target().core());
    cells.add(String.join(", ", row.target().packageNames()));
    cells.add(Facts.supply(row.target()));
    cells.add(Facts.clock(row.target()));
    cells.add(Facts.bus(row.target()));
    cells.add(Style.word(row.grade()));
    cells.add(Style.word(row.verdict().kind()));
    cells.add(row.isListedOnly());
    cells.add(row.busDriver());
    cells.add(row.verdict().limiting());
    cells.add(row.verdict().reason());
    cells.add(flash.isPresent() ? flash.getAsInt() : Optional.empty());
    cells.add(estimate.map(e -> e.flash().low()));
    cells.add(estimate.map(e -> e.flash().likely()));
    cells.add(estimate.map(e -> e.flash().high()));
    cells.add(page.loop().margin().flashBytes(flash.orElse(0)));
    cells.add(row.headroom().map(Headroom::flash));
    cells.add(row.target().ram());
    cells.add(estimate.map(Estimate::staticRam));
    cells.add(estimate.map(Estimate::stack));
    cells.add(row.headroom().map(Headroom::ram));
    cells.add(estimate.isPresent() ? details.add(json -> detail(json, row)) : Optional.empty());
    cells.add(row.plan().isPresent() ? curves.add(json -> curve(json, row)) : Optional.empty());
    return cells;
  }

  private static void detail(JsonGenerator json, Assessment row) throws IOException {
    Estimate estimate = row.estimate().orElseThrow();
    json.writeArrayFieldStart("modules");
    for (Estimate.Part part : estimate.modules()) {
      array(json, part.name(), part.flash(), part.ram());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("buffers");
    for (Buffer buffer : estimate.buffers()) {
      array(json, buffer.name(), buffer.bytes(), buffer.module(), buffer.symbol());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("path");
    for (Estimate.Step step : estimate.stackPath()) {
      array(json, step.function(), step.bytes());
    }
    json.writeEndArray();
    choices(json, row.plan().orElseThrow());
  }

  private static void choices(JsonGenerator json, Firmware plan) throws IOException {
    json.writeStringField("bus", plan.bus().why());
    json.writeStringField("clock", plan.clock().toString());
    json.writeArrayFieldStart("pins");
    for (Map.Entry<Board.Role, Pin> pin : plan.pins().entrySet()) {
      array(json, Style.word(pin.getKey()), pin.getValue().name());
    }
    json.writeEndArray();
    json.writeArrayFieldStart("notes");
    for (String note : plan.notes()) {
      json.writeString(note);
    }
    json.writeEndArray();
  }

  private static void cell(JsonGenerator json, Object cell) throws IOException {
    if (cell instanceof Optional<?> maybe) {
      json.writePOJO(maybe.orElse(null));
    } else {
      json.writePOJO(cell);
    }
  }

  private static void array(JsonGenerator json, Object... cells) throws IOException {
    json.writeStartArray();
    for (Object cell : cells) {
      cell(json, cell);
    }
    json.writeEndArray();
  }

  /** For each axis the flash and the RAM of each value. */
  private void curve(JsonGenerator json, Assessment row) throws IOException {
    for (Curves each : page.curves()) {
      List<Optional<Curves.Point>> points = each.points().get(row.target().name());
      json.writeArrayFieldStart(each.whatIf().key());
      array(json, points.stream().map(point -> point.map(Curves.Point::flash)).toArray());
      array(json, points.stream().map(point -> point.map(Curves.Point::ram)).toArray());
      json.writeEndArray();
    }
  }

  private void axes(JsonGenerator json) throws IOException {
    json.writeArrayFieldStart("axes");
    for (Curves each : page.curves()) {
      WhatIf whatIf = each.whatIf();
      json.writeStartObject();
      json.writeStringField("key", whatIf.key());
      json.writeStringField("title", whatIf.title());
      json.writeStringField("current", whatIf.current().orElse(null));
      json.writeArrayFieldStart("values");
      for (WhatIf.Variant variant : whatIf.variants()) {
        array(json, variant.value(), variant.why());
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}
