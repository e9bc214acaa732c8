package dev.ullage.emit;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadFeature;
import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Pattern;

/**
 * Reads {@code ullage.json}: every key must be there, once, and no other. Whatever the bytes are,
 * the answer is a manifest or an {@link InputException}.
 */
public final class ManifestReader {
  private static final Pattern SHA256 = Pattern.compile("[0-9a-f]{64}");
  private static final JsonFactory JSON =
      JsonFactory.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build();

  private final String file;

  private ManifestReader(String file) {
    this.file = file;
  }

  /**
   * @param file its name in findings
   * @throws InputException if it is not what {@link Manifest#toJson} writes
   */
  public static Manifest read(String file, byte[] bytes) {
    return new ManifestReader(file).manifest(bytes);
  }

  private Manifest manifest(byte[] bytes) {
    Node root = new Node("", tree(bytes));
    root.only("schema", "loop", "target", "versions", "files", "estimate");
    if (!root.text("schema").equals(Manifest.SCHEMA)) {
      throw wrong("schema", '`' + root.text("schema") + '`', '`' + Manifest.SCHEMA + '`');
    }
    Node loop = root.child("loop");
    loop.only("name");
    Node versions = root.child("versions");
    versions.only("ullage", "templates");
    Origin origin =
        new Origin(
            loop.text("name"),
            root.text("target"),
            new Origin.Versions(versions.text("ullage"), versions.text("templates")),
            figures(root.child("estimate")));
    return new Manifest(origin, hashes(root.child("files")));
  }

  private static Origin.Figures figures(Node estimate) {
    estimate.only("flash", "ram_static", "stack");
    Node flash = estimate.child("flash");
    flash.only("low", "likely", "high");
    return new Origin.Figures(
        flash.bytes("low"),
        flash.bytes("likely"),
        flash.bytes("high"),
        estimate.bytes("ram_static"),
        estimate.bytes("stack"));
  }

  private SortedMap<String, String> hashes(Node files) {
    SortedMap<String, String> hashes = new TreeMap<>();
    for (String path : files.fields.keySet()) {
      String hash = files.text(path);
      if (!EmittedPath.isValid(path)) {
        throw wrong("files", '`' + path + '`', "paths inside the folder");
      }
      if (!SHA256.matcher(hash).matches()) {
        throw wrong("files." + path, '`' + hash + '`', "a SHA-256 in small hexadecimal digits");
      }
      hashes.put(path, hash);
    }
    return hashes;
  }

  private Map<String, Object> tree(byte[] bytes) {
    try (JsonParser json = JSON.createParser(bytes)) {
      json.nextToken();
      Object root = value(json, 0);
      if (json.nextToken() == null && root instanceof Map<?, ?>) {
        return fields(root);
      }
      throw wrong("", "something else", "one JSON object");
    } catch (JsonProcessingException e) {
      JsonLocation at = Optional.ofNullable(e.getLocation()).orElse(JsonLocation.NA);
      int line = Math.max(at.getLineNr(), 0);
      throw new InputException(
          new Finding(file, line, 0, "", e.getOriginalMessage(), "JSON", Optional.empty()));
    } catch (IOException e) {
      throw wrong("", String.valueOf(e.getMessage()), "JSON in UTF-8");
    }
  }

  /** An object as a map, a text as a {@code String}, a whole number as an {@code Integer}. */
  private Object value(JsonParser json, int depth) throws IOException {
    JsonToken token = json.currentToken();
    if (token == JsonToken.VALUE_STRING) {
      return json.getText();
    }
    if (token == JsonToken.VALUE_NUMBER_INT) {
      return json.getIntValue();
    }
    if (token != JsonToken.START_OBJECT || depth > 2) {
      throw wrong("", String.valueOf(token), "objects, texts and whole numbers only");
    }
    Map<String, Object> fields = new TreeMap<>();
    while (json.nextToken() == JsonToken.FIELD_NAME) {
      String name = json.currentName();
      json.nextToken();
      fields.put(name, value(json, depth + 1));
    }
    return fields;
  }

  @SuppressWarnings("unchecked") // value() makes no other map
  private static Map<String, Object> fields(Object object) {
    return (Map<String, Object>) object;
  }

  private InputException wrong(String key, String found, String expected) {
    return new InputException(new Finding(file, 0, 0, key, found, expected, Optional.empty()));
  }

  /** An object in the file, and the path of keys that leads to it. */
  private final class Node {
    private final String path;
    private final Map<String, Object> fields;

    Node(String path, Map<String, Object> fields) {
      this.path = path;
      this.fields = fields;
    }

    void only(String... keys) {
      for (String key : fields.keySet()) {
        if (!List.of(keys).contains(key)) {
          throw wrong(at(key), "an unknown key", "absent");
        }
      }
    }

    Node child(String key) {
      if (get(key) instanceof Map<?, ?> object) {
        return new Node(at(key), fields(object));
      }
      throw wrong(at(key), "a single value", "an object");
    }

    String text(String key) {
      if (get(key) instanceof String text) {
        return text;
      }
      throw wrong(at(key), "no text", "a text");
    }

    int bytes(String key) {
      if (get(key) instanceof Integer number && number >= 0) {
        return number;
      }
      throw wrong(at(key), '`' + String.valueOf(get(key)) + '`', "a number of bytes");
    }

    private Object get(String key) {
      Object value = fields.get(key);
      if (value == null) {
        throw wrong(at(key), "missing", "there");
      }
      return value;
    }

    private String at(String key) {
      return path.isEmpty() ? key : path + '.' + key;
    }
  }
}
