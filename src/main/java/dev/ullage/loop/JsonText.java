package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.Iterator;
import java.util.List;
import java.util.Map;

/** Maps, lists, texts, numbers and truth values as indented JSON. */
final class JsonText {
  private final StringBuilder out = new StringBuilder();

  private JsonText() {}

  static String of(Map<String, ?> object) {
    JsonText json = new JsonText();
    json.value(object, "");
    return json.out.append('\n').toString();
  }

  private void value(Object value, String indent) {
    if (value instanceof Map<?, ?> object) {
      object(object, indent);
    } else if (value instanceof List<?> list) {
      list(list, indent);
    } else if (value instanceof String text) {
      text(text);
    } else if (value instanceof BigDecimal number) {
      out.append(number.toPlainString());
    } else {
      out.append(value);
    }
  }

  private void object(Map<?, ?> object, String indent) {
    out.append('{');
    String inside = indent + "  ";
    String separator = "\n";
    for (Map.Entry<?, ?> entry : object.entrySet()) {
      out.append(separator).append(inside);
      text((String) entry.getKey());
      out.append(": ");
      value(entry.getValue(), inside);
      separator = ",\n";
    }
    out.append(object.isEmpty() ? "}" : "\n" + indent + '}');
  }

  private void list(List<?> list, String indent) {
    out.append('[');
    for (Iterator<?> items = list.iterator(); items.hasNext(); ) {
      value(items.next(), indent);
      out.append(items.hasNext() ? ", " : "");
    }
    out.append(']');
  }

  /** The texts of the schema are printable, so that two characters are all there is to escape. */
  private void text(String text) {
    out.append('"').append(text.replace("\\", "\\\\").replace("\"", "\\\"")).append('"');
  }
}
