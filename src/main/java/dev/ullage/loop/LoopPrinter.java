package dev.ullage.loop;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * Writes a loop as a loop file in which every key has its value and says what it means. What the
 * loop does not have stands there as a comment. Reading the text again gives the same loop.
 */
public final class LoopPrinter {
  private static final int COMMENT_COLUMN = 34;

  private final Map<String, Object> values;
  private final StringBuilder out = new StringBuilder();

  private LoopPrinter(Map<String, Object> values) {
    this.values = values;
  }

  /** The text, in lines that end with {@code \n}. */
  public static String print(Loop loop) {
    LoopPrinter printer = new LoopPrinter(LoopValues.of(loop));
    printer.group(Keys.FILE, "", "");
    return printer.out.toString();
  }

  private void group(Shape.Group group, String path, String indent) {
    for (Key key : group.keys()) {
      key(key, path.isEmpty() ? key.name() : path + '.' + key.name(), indent);
    }
  }

  private void key(Key key, String path, String indent) {
    if (key.shape() instanceof Shape.Group group) {
      groupKey(key, group, path, indent);
    } else if (values.containsKey(path)) {
      line(indent + key.name() + ": " + shown(key.shape(), values.get(path)), key.about());
    } else {
      line(indent + "# " + key.name() + ":", key.about());
    }
  }

  private void groupKey(Key key, Shape.Group group, String path, String indent) {
    if (path.equals("sensor.frame.check.crc8") || key.alwaysThere() || values.containsKey(path)) {
      boolean bare = group.keys().stream().noneMatch(inside -> isWritten(inside, path));
      line(indent + key.name() + (bare ? ": {}" : ":"), key.about());
      group(group, path, indent + "  ");
    } else {
      line(
          indent + (group.noneToo() ? key.name() + ": none" : "# " + key.name() + ":"),
          key.about());
    }
  }

  /** False for what would only be a comment: a mapping of comments alone would be no mapping. */
  private boolean isWritten(Key key, String path) {
    return key.alwaysThere() || values.containsKey(path + '.' + key.name());
  }

  private void line(String text, String about) {
    int blanks = Math.max(1, COMMENT_COLUMN - text.codePointCount(0, text.length()));
    out.append(text).append(" ".repeat(blanks)).append("# ").append(about).append('\n');
  }

  private static String shown(Shape shape, Object value) {
    if (shape instanceof Shape.Whole whole) {
      return whole.shown((Long) value);
    }
    if (value instanceof BigDecimal number) {
      return number.toPlainString();
    }
    if (value instanceof List<?> bytes) {
      return bytes.stream()
          .map(item -> Hex.shown((Integer) item))
          .collect(Collectors.joining(", ", "[", "]"));
    }
    boolean quoted = shape instanceof Shape.Text || shape instanceof Shape.PinName;
    return quoted ? quote((String) value) : value.toString();
  }

  private static String quote(String text) {
    StringBuilder quoted = new StringBuilder("\"");
    text.codePoints().forEach(c -> append(quoted, c));
    return quoted.append('"').toString();
  }

  private static void append(StringBuilder quoted, int c) {
    if (c == '"' || c == '\\') {
      quoted.append('\\').appendCodePoint(c);
    } else if (0x20 <= c && c < 0x7F || Character.isLetterOrDigit(c)) {
      quoted.appendCodePoint(c);
    } else {
      quoted.append(String.format("\\U%08X", c));
    }
  }
}
