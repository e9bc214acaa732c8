package dev.ullage.input;

import java.util.List;

/** A piece of a YAML file and where it begins, both from 1. */
public sealed interface Node {

  int line();

  int column();

  /** What it looks like in a finding: short, on one line. */
  String shown();

  /** True for a value that YAML reads as nothing. */
  static boolean isNothing(Node node) {
    return node instanceof Scalar scalar && scalar.isNothing();
  }

  /** True for exactly this word. */
  static boolean isWord(Node node, String word) {
    return node instanceof Scalar scalar && scalar.text().equals(word);
  }

  /**
   * A value.
   *
   * @param plain false if it was written in quotes or as a block of text, so that it is text
   *     whatever it looks like
   */
  record Scalar(String text, boolean plain, int line, int column) implements Node {
    private static final int SHOWN_CHARACTERS = 40;

    /** True for the several ways in which YAML writes nothing at all. */
    public boolean isNothing() {
      return plain
          && (text.isEmpty()
              || text.equals("~")
              || text.equals("null")
              || text.equals("Null")
              || text.equals("NULL"));
    }

    @Override
    public String shown() {
      if (isNothing()) {
        return "nothing";
      }
      String shown = text;
      if (text.codePointCount(0, text.length()) > SHOWN_CHARACTERS) {
        shown = text.substring(0, text.offsetByCodePoints(0, SHOWN_CHARACTERS)) + "...";
      }
      return plain && !text.isBlank() ? shown : '"' + shown + '"';
    }
  }

  /** A list. */
  record Sequence(List<Node> items, int line, int column) implements Node {
    @Override
    public String shown() {
      return items.isEmpty() ? "an empty list" : "a list of " + items.size();
    }
  }

  /** Keys with values; each key once. */
  record Mapping(List<Entry> entries, int line, int column) implements Node {
    @Override
    public String shown() {
      return "a mapping of keys to values";
    }
  }

  /** A key of a mapping and its value. */
  record Entry(Scalar key, Node value) {}
}
