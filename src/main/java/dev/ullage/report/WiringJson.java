package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.wiring.Currents;
import dev.ullage.wiring.Divider;
import dev.ullage.wiring.Levels;
import dev.ullage.wiring.PartsList;
import dev.ullage.wiring.PinUse;
import dev.ullage.wiring.PullUps;
import dev.ullage.wiring.Remark;
import dev.ullage.wiring.Transaction;
import dev.ullage.wiring.Wiring;
import java.io.IOException;

/** The wiring for programs: ohm, V, mA, ms and Hz, as the names of the fields say. */
final class WiringJson {
  private final JsonGenerator json;
  private final Wiring wiring;

  private WiringJson(JsonGenerator json, Wiring wiring) {
    this.json = json;
    this.wiring = wiring;
  }

  static String of(WiringReport report) {
    return Json.object(json -> new WiringJson(json, report.wiring()).write(report));
  }

  private void write(WiringReport report) throws IOException {
    json.writeStringField("schema", "ullage/wiring/1");
    json.writeStringField("loop", wiring.plan().loop().name());
    json.writeStringField("target", wiring.plan().target().name());
    json.writeStringField("package", report.pins().pack());
    json.writeBooleanField("works", wiring.works());
    json.writeArrayFieldStart("remarks");
    for (Remark remark : wiring.remarks()) {
      json.writeStartObject();
      json.writeStringField("weight", remark.weight().word());
      json.writeStringField("text", remark.text());
      json.writeEndObject();
    }
    json.writeEndArray();
    pins(report);
    pullUps(wiring.pullUps());
    time(wiring.transaction());
    levels(wiring.levels());
    dividers();
    currents(wiring.currents());
    parts();
  }

  private void pins(WiringReport report) throws IOException {
    json.writeArrayFieldStart("pins");
    for (PinUse pin : report.pins().pins()) {
      json.writeStartObject();
      json.writeStringField("number", pin.number());
      json.writeStringField("name", pin.name());
      json.writeStringField("kind", Style.word(pin.kind()));
      if (pin.role().isPresent()) {
        json.writeStringField("role", Style.word(pin.role().get()));
      }
      json.writeStringField("leads_to", pin.leadsTo());
      json.writeBooleanField("named", pin.named());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void pullUps(PullUps ups) throws IOException {
    json.writeObjectFieldStart("pull_ups");
    json.writeStringField("mode", wiring.mode().title());
    json.writeStringField("verdict", Style.word(ups.verdict()));
    json.writeNumberField("ohm", ups.ohm());
    number("least_ohm", ups.least());
    number("most_ohm", ups.most());
    number("rise_ns", ups.riseNs());
    json.writeNumberField("most_rise_ns", ups.mostRiseNs());
    number("buy_ohm", ups.toBuy());
    json.writeEndObject();
  }

  private void time(Transaction time) throws IOException {
    json.writeObjectFieldStart("bus_time");
    json.writeStringField("verdict", Style.word(time.verdict()));
    json.writeNumberField("bytes", time.wire().bytes());
    json.writeNumberField("clocks", time.wire().byteClocks());
    json.writeNumberField("conditions", time.wire().conditions());
    number("hz", time.hz());
    number("ms", time.ms());
    number("stretch_ms", time.stretchMs());
    number("wait_ms", time.waitMs());
    number("share", time.share());
    json.writeEndObject();
  }

  private void levels(Levels levels) throws IOException {
    json.writeObjectFieldStart("levels");
    number("supply_v", levels.supplyV());
    number("least_v", levels.leastV());
    number("most_v", levels.mostV());
    number("sensor_v", levels.sensorV());
    number("bus_v", levels.busV());
    json.writeBooleanField("needs_shifter", levels.needsShifter());
    json.writeEndObject();
  }

  private void dividers() throws IOException {
    json.writeArrayFieldStart("dividers");
    for (Divider divider : wiring.dividers()) {
      json.writeStartObject();
      json.writeStringField("what", divider.what());
      json.writeStringField("wanted", divider.wanted());
      json.writeStringField("real", divider.real());
      if (!Double.isNaN(divider.error())) {
        number("error", divider.error());
      }
      json.writeStringField("how", divider.how());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  private void currents(Currents currents) throws IOException {
    json.writeObjectFieldStart("currents");
    number("alarm_ma", currents.alarmMa());
    number("rest_ma", currents.restMa());
    if (currents.lamp().isPresent()) {
      number("lamp_ohm", currents.lamp().get().ohm());
      number("lamp_ma", currents.lamp().get().ma());
    }
    if (currents.battery().isPresent()) {
      number("battery_hours", currents.battery().get().hours());
    }
    json.writeArrayFieldStart("takers");
    for (Currents.Taker taker : currents.takers()) {
      json.writeStartObject();
      json.writeStringField("name", taker.name());
      number("alarm_ma", taker.alarmMa());
      number("rest_ma", taker.restMa());
      json.writeStringField("from", taker.why());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void parts() throws IOException {
    json.writeArrayFieldStart("parts");
    for (PartsList.Item item : wiring.parts()) {
      json.writeStartObject();
      json.writeNumberField("quantity", item.quantity());
      json.writeStringField("part", item.what());
      json.writeStringField("value", item.value());
      json.writeStringField("why", item.why());
      json.writeEndObject();
    }
    json.writeEndArray();
  }

  /** Six digits are more than any part of the board is good for. */
  private void number(String name, double value) throws IOException {
    json.writeFieldName(name);
    json.writeNumber(
        new java.math.BigDecimal(value)
            .round(new java.math.MathContext(6))
            .stripTrailingZeros()
            .toPlainString());
  }
}
