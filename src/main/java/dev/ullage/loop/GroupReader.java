package dev.ullage.loop;

import dev.ullage.input.Findings;
import dev.ullage.input.Node;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;

/**
 * Reads the mappings of a loop file against the table of keys. Afterwards the draft has a value for
 * every key that must have one: what was given, the standard value, or, where there is a finding, a
 * stand-in that lets the other keys be judged.
 */
final class GroupReader {
  private final Findings findings;
  private final Draft draft;
  private final ValueReader values;

  GroupReader(Findings findings, Draft draft) {
    this.findings = findings;
    this.draft = draft;
    this.values = new ValueReader(findings);
  }

  void read(Shape.Group group, String path, Node.Mapping mapping) {
    for (Node.Entry entry : mapping.entries()) {
      if (keyOf(group, entry.key().text()).isEmpty()) {
        new UnknownKey(findings, group, path, mapping, entry).report();
      }
    }
    for (Key key : group.keys()) {
      String inner = inner(path, key);
      Optional<Node.Entry> entry = entryOf(mapping, key);
      if (entry.isPresent()) {
        present(key, inner, entry.get());
      } else {
        absent(key, inner, path.isEmpty() ? "" : path);
      }
    }
  }

  private static Optional<Key> keyOf(Shape.Group group, String name) {
    return group.keys().stream().filter(key -> key.name().equals(name)).findFirst();
  }

  private static Optional<Node.Entry> entryOf(Node.Mapping mapping, Key key) {
    return mapping.entries().stream().filter(e -> e.key().text().equals(key.name())).findFirst();
  }

  private static String inner(String path, Key key) {
    return path.isEmpty() ? key.name() : path + '.' + key.name();
  }

  private void absent(Key key, String path, String parent) {
    if (key.required() && !findings.concern(path)) {
      Draft.Place place = draft.placeOf(parent);
      findings.add(place.line(), place.column(), path, "missing", key.shape().expected());
    }
    standIn(key, path);
  }

  private void present(Key key, String path, Node.Entry entry) {
    Node value = entry.value();
    if (!(key.shape() instanceof Shape.Group group)) {
      draft.place(path, value.line(), value.column());
      Optional<Object> read = values.read(key.shape(), path, value);
      read.ifPresentOrElse(object -> draft.put(path, object), () -> standIn(key, path));
      return;
    }
    draft.place(path, entry.key().line(), entry.key().column());
    if (value instanceof Node.Mapping mapping) {
      draft.put(path, "present");
      read(group, path, mapping);
    } else if (!(group.noneToo() && Node.isWord(value, "none"))) {
      Cures.forGroup(value)
          .ifPresentOrElse(
              cure ->
                  findings.add(
                      value.line(), value.column(), path, value.shown(), group.expected(), cure),
              () ->
                  findings.add(
                      value.line(), value.column(), path, value.shown(), group.expected()));
      standIn(key, path);
    }
  }

  private void standIn(Key key, String path) {
    if (key.alwaysThere()) {
      for (Key inside : ((Shape.Group) key.shape()).keys()) {
        standIn(inside, inner(path, inside));
      }
    } else if (key.standard().isPresent()) {
      draft.put(path, key.standard().get());
    } else if (key.required()) {
      draft.put(path, anyOf(key.shape()));
    }
  }

  private static Object anyOf(Shape shape) {
    if (shape instanceof Shape.Whole whole) {
      return whole.min();
    }
    if (shape instanceof Shape.Decimal) {
      return BigDecimal.ZERO;
    }
    return shape instanceof Shape.Bytes ? List.of() : "?";
  }
}
