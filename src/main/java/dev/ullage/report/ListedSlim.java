package dev.ullage.report;

import dev.ullage.loop.Loop;
import dev.ullage.target.ListedPart;

/** The answer of `slim` for a part that has no port: there is nothing to search with. */
public record ListedSlim(Loop loop, ListedPart part) {
  private static final String ANSWER =
      "Only the limits of this part are known: nothing can be searched.";

  /** The answer as the format wants it, every line ended. */
  public String text(Format format, Style style) {
    Assessment asItIs = Assessment.of(loop, part);
    String budget = new Budget(loop, asItIs).text(format, style);
    return switch (format) {
      case TEXT, MD -> budget + "\n" + ANSWER + "\n";
      case CSV -> budget;
      case JSON -> json(asItIs);
    };
  }

  /** The fields that every answer has. */
  private String json(Assessment asItIs) {
    return Json.object(
        json -> {
          json.writeStringField("schema", "ullage/slim/1");
          json.writeStringField("loop", loop.name());
          new AssessmentJson(json).write(asItIs);
          json.writeStringField("outcome", "not_measured");
          json.writeBooleanField("cheapest", false);
          json.writeNumberField("trials", 0);
          json.writeArrayFieldStart("sets");
          json.writeEndArray();
          json.writeArrayFieldStart("near");
          json.writeEndArray();
        });
  }
}
