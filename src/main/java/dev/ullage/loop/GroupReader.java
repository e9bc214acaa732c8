package dev.ullage.loop;

import dev.ullage.input.Findings;
import dev.ullage.input.Node;
import java.math.BigDecimal;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
    Map<String, Node.Entry> entries = new HashMap<>();
    for (Node.Entry entry : mapping.entries()) {
      entries.put(entry.key().text(), entry);
    }
    for (Node.Entry entry : mapping.entries()) {
      if (!isKnown(group, entry.key().text())) {
        new UnknownKey(findings, group, path, mapping, entry).report();
      }
    }
    for (Key key : group.keys()) {
      Node.Entry entry = entries.get(key.name());
      if (entry == null) {
        absent(key, inner(path, key), path);
      } else {
        present(key, inner(path, key), entry);
      }
    }
  }

  private static boolean isKnown(Shape.Group group, String name) {
    for (Key key : group.keys()) {
      if (key.name().equals(name)) {
        return true;
      }
    }
    return false;
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
      if (read.isPresent()) {
        draft.put(path, read.get());
      } else {
        standIn(key, path);
      }
      return;
    }
    draft.place(path, entry.key().line(), entry.key().column());
    if (value instanceof Node.Mapping mapping) {
      draft.put(path, "present");
      read(group, path, mapping);
    } else if (!(group.noneToo() && Node.isWord(value, "none"))) {
      findings.add(
          value.line(),
          value.column(),
          path,
          value.shown(),
          group.expected(),
          Cures.forGroup(value));
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
