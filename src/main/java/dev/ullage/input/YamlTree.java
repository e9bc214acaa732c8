package dev.ullage.input;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.common.Anchor;
import org.snakeyaml.engine.v2.events.AliasEvent;
import org.snakeyaml.engine.v2.events.CollectionStartEvent;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.events.NodeEvent;
import org.snakeyaml.engine.v2.events.ScalarEvent;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.scanner.StreamReader;

/**
 * Reads YAML 1.2 into nodes that know their places. Nothing is constructed from tags, and depth and
 * aliases are limited: the tree is built from events, so that no file can exhaust the stack.
 */
public final class YamlTree {
  private static final int MAX_DEPTH = 16;
  private static final int MAX_ALIASES = 50;

  private final String text;
  private final Findings findings;
  private final Iterator<Event> events;
  private final Map<String, Node> anchors = new HashMap<>();
  private int lastLine;
  private int depth;
  private int aliases;

  private YamlTree(String text, Findings findings, Iterator<Event> events) {
    this.text = text;
    this.findings = findings;
    this.events = events;
  }

  /**
   * Reads one document that is a mapping. Mistakes that leave the rest readable, such as a key
   * given twice, go into {@code findings}.
   *
   * @throws InputException with all findings so far, if the text is not readable as YAML at all
   */
  public static Node.Mapping read(String text, Findings findings) {
    refuseUnprintable(text, findings);
    LoadSettings settings = LoadSettings.builder().setCodePointLimit(SourceText.MAX_BYTES).build();
    return new YamlTree(text, findings, new Parse(settings).parseString(text).iterator())
        .document();
  }

  private static void refuseUnprintable(String text, Findings findings) {
    for (int i = 0; i < text.length(); i += Character.charCount(text.codePointAt(i))) {
      int c = text.codePointAt(i);
      if (!StreamReader.isPrintable(c)) {
        throw fatal(
            findings,
            SourceText.lineAt(text, i),
            SourceText.columnAt(text, i),
            "the character U+"
                + Integer.toHexString(0x10000 | c).substring(1).toUpperCase(Locale.ROOT),
            "printable text");
      }
    }
  }

  private static InputException syntax(
      MarkedYamlEngineException broken, String text, Findings findings) {
    Optional<Mark> mark = broken.getProblemMark().or(broken::getContextMark);
    int line = mark.map(Mark::getLine).orElse(-1) + 1;
    int column = mark.map(Mark::getColumn).orElse(-1) + 1;
    String problem = broken.getProblem() == null ? broken.getContext() : broken.getProblem();
    boolean tab = problem.contains("TAB");
    String found = tab ? "broken by a tab" : "broken here (" + problem.strip() + ")";
    findings.add(line, column, "", found, "YAML 1.2", SyntaxCure.of(problem, text, line));
    return new InputException(findings.sorted());
  }

  private static InputException fatal(
      Findings findings, int line, int column, String found, String expected) {
    findings.add(line, column, "", found, expected);
    return new InputException(findings.sorted());
  }

  private Node.Mapping document() {
    next(); // the stream's start
    if (next().getEventId() == Event.ID.StreamEnd) {
      throw fatal(findings, 1, 1, "empty", "a mapping of keys to values");
    }
    Node root = node(next(), "");
    next(); // the document's end
    Event after = next();
    if (after.getEventId() != Event.ID.StreamEnd) {
      throw fatal(findings, line(after), column(after), "followed by another", "one document");
    }
    if (root instanceof Node.Mapping mapping) {
      return mapping;
    }
    throw fatal(findings, root.line(), root.column(), root.shown(), "a mapping of keys to values");
  }

  /** The next event; the library lets some exceptions of its own inner workings escape. */
  private Event next() {
    try {
      Event event = events.next();
      lastLine = line(event);
      return event;
    } catch (MarkedYamlEngineException e) {
      throw syntax(e, text, findings);
    } catch (RuntimeException e) {
      throw fatal(
          findings, lastLine, 0, "broken here or below (" + e.getMessage() + ")", "YAML 1.2");
    }
  }

  private Node node(Event start, String path) {
    if (start instanceof AliasEvent alias) {
      return anchored(alias);
    }
    Node node = start instanceof ScalarEvent scalar ? scalar(scalar) : collection(start, path);
    Optional<Anchor> anchor = ((NodeEvent) start).getAnchor();
    if (anchor.isPresent()) {
      anchors.put(anchor.get().getValue(), node);
    }
    return node;
  }

  private Node anchored(AliasEvent alias) {
    Node node = anchors.get(alias.getAlias().getValue());
    if (node == null) {
      throw fatal(
          findings,
          line(alias),
          column(alias),
          "*" + alias.getAlias().getValue(),
          "without aliases to what is not complete before them");
    }
    if (++aliases > MAX_ALIASES) {
      throw fatal(findings, line(alias), column(alias), "one more", "of at most 50 aliases");
    }
    return node;
  }

  private Node scalar(ScalarEvent event) {
    refuseTag(event.getTag(), event);
    return new Node.Scalar(event.getValue(), event.isPlain(), line(event), column(event));
  }

  private Node collection(Event start, String path) {
    refuseTag(((CollectionStartEvent) start).getTag(), start);
    if (++depth > MAX_DEPTH) {
      throw fatal(findings, line(start), column(start), "nested deeper", "at most 16 levels deep");
    }
    Node node =
        start.getEventId() == Event.ID.SequenceStart ? sequence(start, path) : mapping(start, path);
    depth--;
    return node;
  }

  private void refuseTag(Optional<String> tag, Event event) {
    if (tag.isPresent()) {
      findings.add(line(event), column(event), "", "tagged `" + tag.get() + "`", "free of tags");
    }
  }

  private Node sequence(Event start, String path) {
    List<Node> items = new ArrayList<>();
    for (Event e = next(); e.getEventId() != Event.ID.SequenceEnd; e = next()) {
      items.add(node(e, path + '[' + items.size() + ']'));
    }
    return new Node.Sequence(List.copyOf(items), line(start), column(start));
  }

  private Node mapping(Event start, String path) {
    Map<String, Node.Entry> entries = new LinkedHashMap<>();
    for (Event e = next(); e.getEventId() != Event.ID.MappingEnd; e = next()) {
      Node key = node(e, path);
      if (key instanceof Node.Scalar name) {
        String inner = path.isEmpty() ? name.text() : path + '.' + name.text();
        Node.Entry entry = new Node.Entry(name, node(next(), inner));
        Node.Entry first = entries.putIfAbsent(name.text(), entry);
        if (first != null) {
          refuseSecond(name, inner, first.key().line());
        }
      } else {
        findings.add(key.line(), key.column(), path, "keyed by " + key.shown(), "keyed by words");
        node(next(), path);
      }
    }
    return new Node.Mapping(List.copyOf(entries.values()), line(start), column(start));
  }

  private void refuseSecond(Node.Scalar name, String path, int firstLine) {
    String cure = "keep this one or the one on line " + firstLine;
    findings.add(name.line(), name.column(), path, "given again", "given once", cure);
  }

  private static int line(Event event) {
    return event.getStartMark().isPresent() ? event.getStartMark().get().getLine() + 1 : 0;
  }

  private static int column(Event event) {
    return event.getStartMark().isPresent() ? event.getStartMark().get().getColumn() + 1 : 0;
  }
}
