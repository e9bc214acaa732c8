package dev.ullage.report;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.json.JsonWriteFeature;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;

/** One JSON document, indented, in ASCII so that no text in it can command a terminal. */
final class Json {
  private static final Escapes PLAIN = new Escapes("\u007f");
  private static final Escapes HTML = new Escapes("\u007f<>&");

  private static final JsonFactory FACTORY =
      JsonFactory.builder().enable(JsonWriteFeature.ESCAPE_NON_ASCII).build();

  private static final DefaultIndenter INDENT = new DefaultIndenter("  ", "\n");
  private static final DefaultPrettyPrinter LAYOUT =
      new DefaultPrettyPrinter(
              Separators.createDefaultInstance()
                  .withObjectFieldValueSpacing(Separators.Spacing.AFTER))
          .withObjectIndenter(INDENT)
          .withArrayIndenter(INDENT);

  private Json() {}

  /** An object whose fields {@code body} writes, ended by a line feed. */
  static String object(Body body) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(text)) {
      json.setCharacterEscapes(PLAIN);
      json.setPrettyPrinter(LAYOUT.createInstance());
      json.writeStartObject();
      body.writeTo(json);
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  /**
   * An object on one line, in ASCII and without any character that means something in HTML, so that
   * it may stand in a script element: no text in it can end that.
   */
  static String inHtml(Body body) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = FACTORY.createGenerator(text)) {
      json.setCharacterEscapes(HTML);
      json.writeStartObject();
      body.writeTo(json);
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  /** What is inside an object. */
  interface Body {
    void writeTo(JsonGenerator json) throws IOException;
  }
}
