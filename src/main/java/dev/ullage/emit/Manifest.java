package dev.ullage.emit;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What {@code ullage.json} says: where a folder came from and what we wrote there.
 *
 * @param hashes SHA-256 by path of every file that we may replace; files that are the user's from
 *     the start are not in it
 */
public record Manifest(Origin origin, SortedMap<String, String> hashes) {
  /** Its name in the folder. */
  public static final String FILE = "ullage.json";

  static final String SCHEMA = "ullage/emitted/1";

  public Manifest {
    hashes = Collections.unmodifiableSortedMap(new TreeMap<>(hashes));
  }

  static Manifest of(Emission emission) {
    SortedMap<String, String> hashes = new TreeMap<>();
    emission.files().stream()
        .filter(file -> file.policy() == EmittedFile.Policy.REPLACE)
        .forEach(file -> hashes.put(file.path(), file.hash()));
    return new Manifest(emission.origin(), hashes);
  }

  /** As the text of {@code ullage.json}. */
  String toJson() {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      DefaultIndenter indenter = new DefaultIndenter("  ", "\n");
      json.setPrettyPrinter(new DefaultPrettyPrinter().withObjectIndenter(indenter));
      json.writeStartObject();
      json.writeStringField("schema", SCHEMA);
      writeOrigin(json);
      json.writeObjectFieldStart("files");
      for (Map.Entry<String, String> file : hashes.entrySet()) {
        json.writeStringField(file.getKey(), file.getValue());
      }
      json.writeEndObject();
      writeEstimate(json, origin.estimate());
      json.writeEndObject();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.append('\n').toString();
  }

  private void writeOrigin(JsonGenerator json) throws IOException {
    json.writeObjectFieldStart("loop");
    json.writeStringField("name", origin.loop());
    json.writeEndObject();
    json.writeStringField("target", origin.target());
    json.writeObjectFieldStart("versions");
    json.writeStringField("ullage", origin.versions().ullage());
    json.writeStringField("templates", origin.versions().templates());
    json.writeEndObject();
  }

  private static void writeEstimate(JsonGenerator json, Origin.Figures figures) throws IOException {
    json.writeObjectFieldStart("estimate");
    json.writeObjectFieldStart("flash");
    json.writeNumberField("low", figures.flashLow());
    json.writeNumberField("likely", figures.flashLikely());
    json.writeNumberField("high", figures.flashHigh());
    json.writeEndObject();
    json.writeNumberField("ram_static", figures.ramStatic());
    json.writeNumberField("stack", figures.stack());
    json.writeEndObject();
  }
}
