package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The JSON Schema (draft 2020-12) of the loop file, for editors: made from the table of keys that
 * the reader uses. It knows the range of each key; rules between keys are the reader's alone, but
 * for the choice of a limit.
 */
public final class LoopSchema {
  /** Printable and not blank, as the reader demands of a text. */
  private static final String TEXT_PATTERN = "^(?=.*\\S)[^\\p{Cc}\\p{Cf}\\p{Cs}\\p{Zl}\\p{Zp}]*$";

  private LoopSchema() {}

  /** The schema, as indented JSON. */
  public static String json() {
    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("$schema", "https://json-schema.org/draft/2020-12/schema");
    schema.put("title", "Ullage loop file");
    schema.putAll(group(Keys.FILE, ""));
    return JsonText.of(schema);
  }

  private static Map<String, Object> group(Shape.Group group, String path) {
    Map<String, Object> properties = new LinkedHashMap<>();
    List<Object> required = new ArrayList<>();
    for (Key key : group.keys()) {
      properties.put(
          key.name(), property(key, path.isEmpty() ? key.name() : path + '.' + key.name()));
      if (key.required()) {
        required.add(key.name());
      }
    }
    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("type", "object");
    schema.put("properties", properties);
    schema.put("required", required);
    schema.put("additionalProperties", false);
    if (path.equals("alarm")) {
      schema.put("oneOf", List.of(need("threshold"), need("knob"), need("low", "high")));
    }
    if (path.equals("outputs")) {
      schema.put("minProperties", 1);
    }
    return schema;
  }

  private static Map<String, Object> need(String... keys) {
    return Map.of("required", List.of((Object[]) keys));
  }

  private static Map<String, Object> property(Key key, String path) {
    Map<String, Object> schema = new LinkedHashMap<>();
    schema.put("description", key.about());
    if (key.standard().isPresent() && !key.alwaysThere()) {
      schema.put("default", key.standard().get());
    }
    schema.putAll(shape(key.shape(), path));
    return schema;
  }

  private static Map<String, Object> shape(Shape shape, String path) {
    if (shape instanceof Shape.Group group) {
      Map<String, Object> keyed = group(group, path);
      return group.noneToo() ? Map.of("anyOf", List.of(Map.of("const", "none"), keyed)) : keyed;
    }
    if (shape instanceof Shape.Whole whole) {
      return whole(whole);
    }
    if (shape instanceof Shape.Decimal decimal) {
      return range("number", decimal.min(), decimal.max());
    }
    if (shape instanceof Shape.Choice choice) {
      return Map.of("enum", choice.words());
    }
    if (shape instanceof Shape.Bytes bytes) {
      return ordered(
          "type", "array", "items", shape(Keys.BYTE, path), "maxItems", bytes.maxCount());
    }
    if (shape instanceof Shape.Text text) {
      return ordered(
          "type",
          "string",
          "minLength",
          1,
          "maxLength",
          text.maxCharacters(),
          "pattern",
          TEXT_PATTERN);
    }
    return shape instanceof Shape.PinName
        ? ordered("type", "string", "pattern", "^(?=.{2,8}$)" + Shape.PinName.PATTERN + "$")
        : Map.of("type", "boolean");
  }

  private static Map<String, Object> whole(Shape.Whole whole) {
    Map<String, Object> range =
        range("integer", BigDecimal.valueOf(whole.min()), BigDecimal.valueOf(whole.max()));
    return whole.zeroToo() ? Map.of("anyOf", List.of(Map.of("const", 0), range)) : range;
  }

  private static Map<String, Object> range(String type, BigDecimal min, BigDecimal max) {
    return ordered("type", type, "minimum", min, "maximum", max);
  }

  private static Map<String, Object> ordered(Object... namesAndValues) {
    Map<String, Object> ordered = new LinkedHashMap<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      ordered.put((String) namesAndValues[i], namesAndValues[i + 1]);
    }
    return ordered;
  }
}
