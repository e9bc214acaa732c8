package dev.ullage.target;

import dev.ullage.input.Node;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A short cut for the part of YAML that the catalogue is written in: block mappings and lists, flow
 * mappings of plain values on one line, values in double quotes, comments on lines of their own.
 *
 * <p>The whole catalogue is read at each start of the tool, and through the YAML library that takes
 * several times as long. What is read here the library reads alike, down to the columns (a test
 * says so for every file); what is written otherwise, or wrongly, is left to the library.
 */
final class PlainYaml {
  /** What begins a plain value only where YAML gives it another meaning. */
  private static final String RESERVED = "&*!|>%@`'\"[]{},?:#-";

  /** What may not stand in a plain value of a flow mapping. */
  private static final String FLOW = "{}[]";

  /** Deeper than any file of ours; a file that is nothing but depth must not exhaust the stack. */
  private static final int DEEPEST = 32;

  private final List<Line> lines = new ArrayList<>();
  private int next;

  private PlainYaml(String text) {
    int number = 0;
    for (String line : text.split("\n")) {
      number++;
      int indent = 0;
      while (indent < line.length() && line.charAt(indent) == ' ') {
        indent++;
      }
      if (indent < line.length() && line.charAt(indent) != '#') {
        lines.add(new Line(number, indent, line.substring(indent)));
      }
    }
  }

  private record Line(int number, int indent, String content) {}

  /** Ends the short cut. No stack trace: it is no error, and nobody sees it. */
  private static final class Otherwise extends RuntimeException {
    private static final long serialVersionUID = 1L;

    Otherwise() {
      super(null, null, false, false);
    }
  }

  /** The mapping that the text is; empty if it is something else, or takes the library to tell. */
  static Optional<Node.Mapping> read(String text) {
    PlainYaml reader = new PlainYaml(text);
    try {
      Node root = reader.block(0);
      boolean whole = reader.next == reader.lines.size();
      return whole && root instanceof Node.Mapping mapping
          ? Optional.of(mapping)
          : Optional.empty();
    } catch (Otherwise e) {
      return Optional.empty();
    }
  }

  /** Everything from the next line on that is indented by as much. */
  private Node block(int indent) {
    if (next == lines.size() || lines.get(next).indent != indent || indent > DEEPEST) {
      throw new Otherwise();
    }
    return isItem(lines.get(next)) ? sequence(indent) : mapping(indent);
  }

  private static boolean isItem(Line line) {
    return line.content.startsWith("- ");
  }

  private boolean continues(int indent, boolean items) {
    return next < lines.size()
        && lines.get(next).indent == indent
        && isItem(lines.get(next)) == items;
  }

  private Node sequence(int indent) {
    int start = lines.get(next).number;
    List<Node> items = new ArrayList<>();
    while (continues(indent, true)) {
      Line line = lines.get(next);
      Line item = new Line(line.number, indent + 2, line.content.substring(2));
      if (item.content.isEmpty()) {
        throw new Otherwise();
      }
      if (item.content.charAt(0) == '"' || keyEnd(item.content) < 0) {
        next++;
        items.add(new Inline(item, 0).value());
      } else {
        lines.set(next, item);
        items.add(mapping(indent + 2));
      }
    }
    return new Node.Sequence(List.copyOf(items), start, indent + 1);
  }

  private Node mapping(int indent) {
    int start = lines.get(next).number;
    Entries entries = new Entries();
    while (continues(indent, false)) {
      Line line = lines.get(next++);
      int end = keyEnd(line.content);
      if (end < 0) {
        throw new Otherwise();
      }
      Node.Scalar key = plain(line.content.substring(0, end), line, 0);
      boolean nested = end == line.content.length() - 1;
      entries.add(key, nested ? deeper(indent) : new Inline(line, end + 2).value());
    }
    return entries.mapping(start, indent + 1);
  }

  private Node deeper(int indent) {
    if (next == lines.size() || lines.get(next).indent <= indent) {
      throw new Otherwise();
    }
    return block(lines.get(next).indent);
  }

  /** Where the colon after a key is, or -1. */
  private static int keyEnd(String content) {
    int end = content.indexOf(": ");
    return end < 0 && content.endsWith(":") ? content.length() - 1 : end;
  }

  private static Node.Scalar plain(String text, Line line, int offset) {
    if (text.isEmpty() || RESERVED.indexOf(text.charAt(0)) >= 0 || !isPlain(text)) {
      throw new Otherwise();
    }
    return new Node.Scalar(text, true, line.number, column(line, offset));
  }

  /** False for what YAML could end or cut: a colon or a hash beside a space, space at an end. */
  private static boolean isPlain(String text) {
    char before = ' ';
    for (int at = 0; at < text.length(); at++) {
      char c = text.charAt(at);
      boolean cuts = c == ' ' && (before == ':' || at == 0) || c == '#' && before == ' ';
      if (cuts || c < ' ' || c > '~') {
        return false;
      }
      before = c;
    }
    return before != ' ' && before != ':';
  }

  private static int column(Line line, int offset) {
    return line.indent + offset + 1;
  }

  /** The entries of a mapping, each key once. */
  private static final class Entries {
    private final List<Node.Entry> entries = new ArrayList<>();
    private final Set<String> keys = new HashSet<>();

    void add(Node.Scalar key, Node value) {
      if (!keys.add(key.text())) {
        throw new Otherwise();
      }
      entries.add(new Node.Entry(key, value));
    }

    Node mapping(int line, int column) {
      return new Node.Mapping(List.copyOf(entries), line, column);
    }
  }

  /** A value that stands on one line, from an offset to the end of that line. */
  private static final class Inline {
    private final Line line;
    private final String text;
    private int at;

    Inline(Line line, int offset) {
      this.line = line;
      this.text = line.content;
      this.at = offset;
    }

    Node value() {
      return switch (peek()) {
        case '{' -> whole(flow(0));
        case '"' -> quoted();
        default -> plain(text.substring(at), line, at);
      };
    }

    private Node whole(Node flow) {
      if (at != text.length()) {
        throw new Otherwise();
      }
      return flow;
    }

    private Node quoted() {
      int end = text.length() - 1;
      if (text.indexOf('"', at + 1) != end || text.indexOf('\\') >= 0) {
        throw new Otherwise();
      }
      return new Node.Scalar(text.substring(at + 1, end), false, line.number, column(line, at));
    }

    private Node flow(int depth) {
      if (depth > DEEPEST) {
        throw new Otherwise();
      }
      int start = at++;
      Entries entries = new Entries();
      while (peek() != '}') {
        Node.Scalar key = upTo(text.indexOf(':', at));
        skip(": ");
        entries.add(key, peek() == '{' ? flow(depth + 1) : upTo(flowEnd()));
        if (peek() != '}') {
          skip(", ");
        }
      }
      at++;
      return entries.mapping(line.number, column(line, start));
    }

    /** Where the value that begins here ends: at the next comma or brace. */
    private int flowEnd() {
      int comma = text.indexOf(',', at);
      int brace = text.indexOf('}', at);
      return comma < 0 ? brace : Math.min(comma, brace);
    }

    private Node.Scalar upTo(int end) {
      if (end < 0) {
        throw new Otherwise();
      }
      int start = at;
      at = end;
      Node.Scalar scalar = plain(text.substring(start, end), line, start);
      for (int i = 0; i < FLOW.length(); i++) {
        if (scalar.text().indexOf(FLOW.charAt(i)) >= 0) {
          throw new Otherwise();
        }
      }
      return scalar;
    }

    private void skip(String separator) {
      if (!text.startsWith(separator, at)) {
        throw new Otherwise();
      }
      at += separator.length();
    }

    private char peek() {
      if (at >= text.length()) {
        throw new Otherwise();
      }
      return text.charAt(at);
    }
  }
}
