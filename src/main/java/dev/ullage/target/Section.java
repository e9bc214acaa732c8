package dev.ullage.target;

import dev.ullage.input.Finding;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.nodes.Tag;

/**
 * One mapping of a catalogue file, read key by key. What is wrong becomes a finding and an empty
 * value, so that one run shows everything that is wrong with a file; whoever reads the file throws
 * at the end.
 */
final class Section {
  private static final Node NOTHING = new ScalarNode(Tag.NULL, "", ScalarStyle.PLAIN);

  private final String file;
  private final String path;
  private final Node place;
  private final List<Finding> findings;
  private final Map<String, Node> values = new LinkedHashMap<>();
  private final Set<String> known = new LinkedHashSet<>();

  Section(String file, String path, Node place, List<Finding> findings) {
    this.file = file;
    this.path = path;
    this.place = place;
    this.findings = findings;
    if (place instanceof MappingNode mapping) {
      mapping.getValue().forEach(this::take);
    }
  }

  private void take(NodeTuple entry) {
    String key = describe(entry.getKeyNode());
    if (values.put(key, entry.getValueNode()) != null) {
      report(entry.getKeyNode(), key, "written twice", "written once");
    }
  }

  /** What the reader makes of this; a key that it does not ask for is one that nobody knows. */
  <T> T read(Function<Section, T> reader) {
    T read = reader.apply(this);
    values.forEach(
        (key, node) -> {
          if (!known.contains(key)) {
            report(node, key, "an unknown key", "one of " + String.join(", ", known));
          }
        });
    return read;
  }

  boolean has(String key) {
    known.add(key);
    return values.containsKey(key);
  }

  String text(String key) {
    return parsed(key, Function.identity(), "a single value").orElse("");
  }

  Optional<String> optionalText(String key) {
    return has(key) ? Optional.of(text(key)) : Optional.empty();
  }

  int integer(String key) {
    return parsed(key, Integer::decode, "a whole number such as 512 or 0x60").orElse(0);
  }

  /** Which of the words stands there, by its index. */
  int choice(String key, List<String> words) {
    return parsed(key, words::indexOf, "a word")
        .map(index -> index < 0 ? reject(key, "one of " + String.join(", ", words)) : index)
        .orElse(0);
  }

  /** Parses a single value; the parser refuses with an {@link IllegalArgumentException}. */
  <T> Optional<T> parsed(String key, Function<String, T> parser, String expected) {
    return value(key).flatMap(node -> parsed(node, key, parser, expected));
  }

  /** As {@link #parsed}, for each element of a list. */
  <T> List<T> elements(String key, Function<String, T> parser, String expected) {
    List<T> all = new ArrayList<>();
    for (Node node : sequence(key)) {
      parsed(node, key, parser, expected).ifPresent(all::add);
    }
    return all;
  }

  /** As {@link #read}, for the mapping under a key. */
  <T> T section(String key, Function<Section, T> reader) {
    return value(key)
        .flatMap(node -> mapping(node, key))
        .map(section -> section.read(reader))
        .orElseGet(() -> reader.apply(absent()));
  }

  <T> Optional<T> optional(String key, Function<Section, T> reader) {
    return has(key) ? Optional.of(section(key, reader)) : Optional.empty();
  }

  /** As {@link #read}, for each mapping of a list. */
  <T> List<T> list(String key, Function<Section, T> reader) {
    List<T> all = new ArrayList<>();
    for (Node node : sequence(key)) {
      mapping(node, key + '[' + all.size() + ']').ifPresent(one -> all.add(one.read(reader)));
    }
    return all;
  }

  /** As {@link #read}, for each mapping in a mapping whose keys are names. */
  <T> Map<String, T> named(String key, BiFunction<String, Section, T> reader) {
    return section(
        key, names -> names.each(name -> names.section(name, one -> reader.apply(name, one))));
  }

  /** What a function makes of each key, in the order of the file. */
  <T> Map<String, T> each(Function<String, T> function) {
    Map<String, T> all = new LinkedHashMap<>();
    values.keySet().forEach(key -> all.put(key, function.apply(key)));
    return all;
  }

  /** As {@link #each}, for keys that are numbers. */
  <N extends Number, T> Map<N, T> numbered(Function<String, N> number, Function<String, T> value) {
    Map<N, T> all = new LinkedHashMap<>();
    each(value)
        .forEach(
            (key, read) -> {
              try {
                all.put(number.apply(key), read);
              } catch (NumberFormatException e) {
                report(values.getOrDefault(key, place), key, "no number", "a number");
              }
            });
    return all;
  }

  /** Adds a finding about the name that this mapping has. */
  void rejectName(String expected) {
    report(place, "", "another name", expected);
  }

  /** Adds a finding about a value that was read; returns 0, to stand in for it. */
  int reject(String key, String expected) {
    Node node = values.getOrDefault(key, place);
    report(node, key, '`' + describe(node) + '`', expected);
    return 0;
  }

  private Optional<Node> value(String key) {
    if (!has(key)) {
      report(place, key, "missing", "there");
    }
    return Optional.ofNullable(values.get(key));
  }

  private <T> Optional<T> parsed(
      Node node, String key, Function<String, T> parser, String expected) {
    if (node instanceof ScalarNode scalar && !scalar.getValue().isEmpty()) {
      try {
        return Optional.of(parser.apply(scalar.getValue()));
      } catch (IllegalArgumentException e) {
        // Reported below, with the place, which the parser does not know.
      }
    }
    report(node, key, '`' + describe(node) + '`', expected);
    return Optional.empty();
  }

  private Optional<Section> mapping(Node node, String key) {
    if (node instanceof MappingNode) {
      return Optional.of(new Section(file, join(key), node, findings));
    }
    report(node, key, '`' + describe(node) + '`', "a mapping of keys to values");
    return Optional.empty();
  }

  private List<Node> sequence(String key) {
    Optional<Node> node = value(key);
    if (node.isPresent() && node.get() instanceof SequenceNode sequence) {
      return sequence.getValue();
    }
    node.ifPresent(other -> report(other, key, '`' + describe(other) + '`', "a list"));
    return List.of();
  }

  /** An empty mapping whose findings nobody hears: a missing one is one finding, not ten. */
  private static Section absent() {
    return new Section("", "", NOTHING, new ArrayList<>());
  }

  private void report(Node node, String key, String found, String expected) {
    int line = node.getStartMark().map(mark -> mark.getLine() + 1).orElse(0);
    int column = node.getStartMark().map(mark -> mark.getColumn() + 1).orElse(0);
    findings.add(new Finding(file, line, column, join(key), found, expected, Optional.empty()));
  }

  private String join(String key) {
    return path.isEmpty() || key.isEmpty() ? path + key : path + '.' + key;
  }

  private static String describe(Node node) {
    if (node instanceof ScalarNode scalar) {
      return scalar.getValue();
    }
    return node instanceof SequenceNode ? "a list" : "a mapping";
  }
}
