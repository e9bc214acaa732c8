package dev.ullage.loop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SpecVersion;
import com.networknt.schema.ValidationMessage;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;

class LoopSchemaTest {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final JsonSchema SCHEMA =
      JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012).getSchema(LoopSchema.json());

  /** A YAML text as an editor's schema check sees it: read by the library alone. */
  private static JsonNode jsonOf(String yaml) {
    LoadSettings core = LoadSettings.builder().setSchema(new CoreSchema()).build();
    return JSON.valueToTree(new Load(core).loadFromString(yaml));
  }

  private static Set<ValidationMessage> complaints(String yaml) {
    return SCHEMA.validate(jsonOf(yaml));
  }

  @Test
  void schema_isAValidSchemaItself() throws JsonProcessingException {
    JsonSchema meta =
        JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
            .getSchema(SchemaLocation.of("https://json-schema.org/draft/2020-12/schema"));
    assertEquals(Set.of(), meta.validate(JSON.readTree(LoopSchema.json())));
  }

  @ParameterizedTest
  @MethodSource("dev.ullage.loop.LoopReaderTest#samples")
  void samples_satisfyTheSchema(Path sample) throws IOException {
    assertEquals(Set.of(), complaints(Files.readString(sample)));
  }

  @Test
  void printedLoops_satisfyTheSchema() {
    for (Loop loop : Loops.random(3, 100)) {
      assertEquals(Set.of(), complaints(LoopPrinter.print(loop)));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "loop: a\nsensor: {address: 0x90}\nalarm: {threshold: 1}",
        "loop: a\nsensor: {address: 0x48, adress: 1}\nalarm: {threshold: 1}",
        "loop: a\nsensor: {address: 0x48}\nalarm: {}",
        "loop: a\nsensor: {address: 0x48}\nalarm: {threshold: 1, knob: {from: 1, to: 2}}",
        "loop: a\nsensor: {address: 0x48, bus: spi}\nalarm: {threshold: 1}",
        "loop: a\nsensor: {address: 0x48, restart: yes}\nalarm: {threshold: 1}",
        "loop: a\nsensor: {address: 0x48, ask: [256]}\nalarm: {threshold: 1}",
        "loop: ' '\nsensor: {address: 0x48}\nalarm: {threshold: 1}",
        "loop: a\nsensor: {address: 0x48}\nalarm: {threshold: 1}\noutputs: {lamp: {blink_ms: 5}}",
        "loop: a\nsensor: {address: 0x48}\nalarm: {threshold: 1}\noutputs: {}",
        "loop: a\nsensor: {address: 0x48}\nalarm: {threshold: 1}\nboard: {pins: {sda: pb0}}"
      })
  void whatTheReaderRefuses_theSchemaRefuses(String yaml) {
    assertFalse(complaints(yaml).isEmpty());
    assertThrows(InputException.class, () -> LoopReader.read("loop.yaml", yaml));
  }

  /** The defaults that editors show are those that the reader takes. */
  @Test
  void defaults_areThoseOfTheReader() throws JsonProcessingException {
    Loop loop = LoopReader.read("l", "loop: a\nsensor: {address: 0x48}\nalarm: {threshold: 1}");
    JsonNode printed = jsonOf(LoopPrinter.print(loop));
    int compared = compare(JSON.readTree(LoopSchema.json()), printed);
    assertTrue(compared > 30, "only " + compared + " defaults were compared");
  }

  private static int compare(JsonNode schema, JsonNode value) {
    int compared = 0;
    for (var property : schema.path("properties").properties()) {
      JsonNode given = value.path(property.getKey());
      JsonNode standard = property.getValue().path("default");
      if (!standard.isMissingNode() && !given.isMissingNode()) {
        assertEquals(standard.asText(), given.asText(), property.getKey());
        compared++;
      }
      compared += compare(property.getValue(), given);
    }
    return compared;
  }
}
