package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import dev.ullage.replay.Event;
import dev.ullage.replay.Remedy;
import dev.ullage.replay.Replay;
import dev.ullage.replay.Spread;
import dev.ullage.replay.Summary;
import java.io.IOException;

/** A replay for programs. */
final class ReplayJson {
  private final JsonGenerator json;

  private ReplayJson(JsonGenerator json) {
    this.json = json;
  }

  static String of(ReplayReport report) {
    return Json.object(json -> new ReplayJson(json).write(report));
  }

  private void write(ReplayReport report) throws IOException {
    Replay replay = report.replay();
    json.writeStringField("schema", "ullage/replay/1");
    json.writeStringField("loop", replay.loop().name());
    json.writeStringField("trace", replay.trace().name());
    json.writeNumberField("period_ms", replay.trace().periodMs());
    json.writeStringField("unit", Values.judged(replay.loop()).unit());
    json.writeArrayFieldStart("limits");
    for (double limit : replay.limits().trip()) {
      json.writeNumber(limit);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("events");
    for (Event event : replay.events()) {
      json.writeStartObject();
      json.writeNumberField("reading", event.reading());
      json.writeNumberField("time_ms", event.timeMs());
      json.writeBooleanField("alarm", event.alarm());
      json.writeEndObject();
    }
    json.writeEndArray();
    summary(replay.summary());
    json.writeArrayFieldStart("remedies");
    for (Remedy remedy : report.remedies()) {
      remedy(remedy);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("notes");
    for (String note : replay.trace().notes()) {
      json.writeString(note);
    }
    json.writeEndArray();
  }

  private void summary(Summary summary) throws IOException {
    json.writeObjectFieldStart("summary");
    json.writeNumberField("readings", summary.readings());
    json.writeNumberField("failed", summary.failed());
    json.writeNumberField("alarms", summary.alarms());
    json.writeNumberField("returns", summary.returns());
    json.writeNumberField("settles_in", summary.settlesIn());
    json.writeNumberField("length_ms", summary.lengthMs());
    json.writeNumberField("alarm_ms", summary.alarmMs());
    if (summary.average().isPresent()) {
      Spread average = summary.average().get();
      json.writeObjectFieldStart("average");
      json.writeNumberField("count", average.count());
      json.writeNumberField("mean", average.mean());
      json.writeNumberField("sd", average.sd());
      json.writeNumberField("low", average.low());
      json.writeNumberField("high", average.high());
      json.writeNumberField("peak_to_peak", average.peakToPeak());
      json.writeNumberField("noise_sd", summary.noiseSd());
      json.writeEndObject();
    } else {
      json.writeNullField("average");
    }
    json.writeEndObject();
  }

  private void remedy(Remedy remedy) throws IOException {
    json.writeStartObject();
    json.writeStringField("setting", remedy.setting().key());
    json.writeNumberField("value", remedy.value());
    json.writeNumberField("alarms", remedy.alarms());
    json.writeNumberField("missed", remedy.missed());
    json.writeNumberField("later_on", remedy.laterOn());
    json.writeNumberField("later_off", remedy.laterOff());
    json.writeEndObject();
  }
}
