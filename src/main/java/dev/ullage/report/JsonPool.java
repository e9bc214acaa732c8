package dev.ullage.report;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.util.LinkedHashMap;
import java.util.Map;

/** Objects of a JSON document of which equal ones are written once, and named by their place. */
final class JsonPool {
  private final Map<String, Integer> places = new LinkedHashMap<>();

  /** The place of the object, from 0. */
  int add(Json.Body body) {
    return places.computeIfAbsent(Json.inHtml(body), any -> places.size());
  }

  /** All of them, as an array in the object that is open. */
  void writeTo(JsonGenerator json, String field) throws IOException {
    json.writeArrayFieldStart(field);
    for (String object : places.keySet()) {
      json.writeRawValue(object);
    }
    json.writeEndArray();
  }
}
