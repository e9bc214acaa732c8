package dev.ullage.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;

/** One JSON document, indented, in ASCII so that no text in it can command a terminal. */
final class Json {
  private static final JsonFactory FACTORY =
      JsonFactory.builder().enable(JsonWriteFeature.ESCAPE_NON_ASCII).build();

  private Json() {}

  /** An object whose fields {@code body} writes, ended by a line feed. */
  static String object(Body body) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(text)) {
      DefaultIndenter indent = new DefaultIndenter("  ", "\n");
      json.setPrettyPrinter(
          new DefaultPrettyPrinter().withObjectIndenter(indent).withArrayIndenter(indent));
      json.writeStartObject();
      body.writeTo(json);
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  /** What is inside an object. */
  interface Body {
    void writeTo(JsonGenerator json) throws IOException;
  }
}
