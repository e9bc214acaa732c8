package dev.ullage.target;

import dev.ullage.formula.Recipe;
import dev.ullage.input.Findings;
import dev.ullage.input.Nearest;
import dev.ullage.input.Node;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * One mapping of a catalogue file, read key by key. What is wrong becomes a finding and an empty
 * value, so that one run shows everything that is wrong with a file; whoever reads the file throws
 * at the end.
 */
final class Section {
  private final String path;
  private final Node.Mapping mapping;
  private final Findings findings;
  private final Map<String, Node> values = new LinkedHashMap<>();
  private final List<String> known = new ArrayList<>();

  Section(String path, Node.Mapping mapping, Findings findings) {
    this.path = path;
    this.mapping = mapping;
    this.findings = findings;
    for (Node.Entry entry : mapping.entries()) {
      values.put(entry.key().text(), entry.value());
    }
  }

  /** What the reader makes of this; a key that it does not ask for is one that nobody knows. */
  <T> T read(Function<Section, T> reader) {
    T read = reader.apply(this);
    if (!known.containsAll(values.keySet())) {
      for (Node.Entry entry : mapping.entries()) {
        if (!known.contains(entry.key().text())) {
          refuseUnknown(entry.key());
        }
      }
    }
    return read;
  }

  private void refuseUnknown(Node.Scalar key) {
    List<String> all = known.stream().distinct().toList();
    String expected = "one of " + String.join(", ", all);
    String where = join(key.text());
    Nearest.to(key.text(), all)
        .ifPresentOrElse(
            near ->
                findings.add(
                    key.line(), key.column(), where, "unknown", expected, "did you mean " + near),
            () -> findings.add(key.line(), key.column(), where, "unknown", expected));
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
    Function<String, Integer> index =
        word -> {
          if (!words.contains(word)) {
            throw new IllegalArgumentException(word);
          }
          return words.indexOf(word);
        };
    return parsed(key, index, "one of " + String.join(", ", words)).orElse(0);
  }

  /** Parses a single value; the parser refuses with an {@link IllegalArgumentException}. */
  <T> Optional<T> parsed(String key, Function<String, T> parser, String expected) {
    Node value = find(key);
    return value == null ? Optional.empty() : parsed(value, key, parser, expected);
  }

  /** Every key that nobody has asked for, with its single value. */
  Map<String, String> others() {
    Map<String, String> others = new LinkedHashMap<>();
    for (String key : values.keySet()) {
      if (!known.contains(key)) {
        others.put(key, text(key));
      }
    }
    return others;
  }

  /** This mapping of names to formulas. */
  Recipe recipe() {
    Recipe recipe = Recipe.of(each(this::text));
    try {
      return recipe.checked();
    } catch (IllegalArgumentException e) {
      report(mapping, "", String.valueOf(e.getMessage()), "formulas");
      return Recipe.of(Map.of());
    }
  }

  /** A recipe, written here or named. */
  Recipe recipe(String key, Map<String, Recipe> named) {
    if (values.get(key) instanceof Node.Mapping) {
      return section(key, Section::recipe);
    }
    Function<String, Recipe> find = name -> FamilyReader.find(named, name);
    return parsed(key, find, "formulas, or one of " + String.join(", ", named.keySet()))
        .orElseGet(() -> Recipe.of(Map.of()));
  }

  /** As {@link #parsed}, for each word of a single value. */
  <T> List<T> words(String key, Function<String, T> parser, String expected) {
    return parsed(key, text -> each(text.split(" "), parser), expected).orElse(List.of());
  }

  private static <T> List<T> each(String[] words, Function<String, T> parser) {
    List<T> all = new ArrayList<>(words.length);
    for (String word : words) {
      all.add(parser.apply(word));
    }
    return all;
  }

  /** As {@link #parsed}, for each element of a list. */
  <T> List<T> elements(String key, Function<String, T> parser, String expected) {
    List<T> all = new ArrayList<>();
    for (Node value : items(key)) {
      parsed(value, key, parser, expected).ifPresent(all::add);
    }
    return all;
  }

  /** As {@link #read}, for the mapping under a key. */
  <T> T section(String key, Function<Section, T> reader) {
    Node value = find(key);
    if (value instanceof Node.Mapping inner) {
      return new Section(join(key), inner, findings).read(reader);
    }
    if (value != null) {
      report(value, key, value.shown(), "a mapping of keys to values");
    }
    return reader.apply(absent());
  }

  <T> Optional<T> optional(String key, Function<Section, T> reader) {
    return has(key) ? Optional.of(section(key, reader)) : Optional.empty();
  }

  /** As {@link #read}, for each mapping of a list. */
  <T> List<T> list(String key, Function<Section, T> reader) {
    List<T> all = new ArrayList<>();
    for (Node value : items(key)) {
      String one = key + '[' + all.size() + ']';
      if (value instanceof Node.Mapping inner) {
        all.add(new Section(join(one), inner, findings).read(reader));
      } else {
        report(value, one, value.shown(), "a mapping of keys to values");
      }
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
                reject(key, "no number", "a number");
              }
            });
    return all;
  }

  /** Adds a finding about a value that was read. */
  void reject(String key, String found, String expected) {
    report(values.getOrDefault(key, mapping), key, found, expected);
  }

  private @Nullable Node find(String key) {
    if (!has(key)) {
      report(mapping, key, "missing", "there");
    }
    return values.get(key);
  }

  private <T> Optional<T> parsed(
      Node value, String key, Function<String, T> parser, String expected) {
    if (value instanceof Node.Scalar scalar && !scalar.isNothing()) {
      try {
        return Optional.of(parser.apply(scalar.text()));
      } catch (IllegalArgumentException e) {
        // Reported below, with the place, which the parser does not know.
      }
    }
    report(value, key, value.shown(), expected);
    return Optional.empty();
  }

  private List<Node> items(String key) {
    Node value = find(key);
    if (value instanceof Node.Sequence sequence) {
      return sequence.items();
    }
    if (value != null) {
      report(value, key, value.shown(), "a list");
    }
    return List.of();
  }

  /** An empty mapping whose findings nobody hears: a missing one is one finding, not ten. */
  private static Section absent() {
    return new Section("", new Node.Mapping(List.of(), 0, 0), new Findings(""));
  }

  private void report(Node where, String key, String found, String expected) {
    findings.add(where.line(), where.column(), join(key), found, expected);
  }

  private String join(String key) {
    return path.isEmpty() ? key : path + '.' + key;
  }
}
