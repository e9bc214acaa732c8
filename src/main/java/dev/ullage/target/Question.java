package dev.ullage.target;

/**
 * One thing that a device header must confirm.
 *
 * @param what it is about
 * @param condition a preprocessor condition that holds where header and catalogue agree
 * @param found text that the preprocessor expands to what the header has
 * @param expected what the catalogue has
 */
record Question(String what, String condition, String found, String expected) {

  /** The header must have the name. */
  static Question defined(String name) {
    return new Question(name, "defined(" + name + ")", "undefined", "defined");
  }

  /** An expression of the header must have the value. */
  static Question value(String what, String expression, long expected) {
    return new Question(what, expression + " == " + expected, expression, String.valueOf(expected));
  }

  /** The header must have one of the things exactly where the catalogue says so. */
  static Question presence(String what, boolean expected, String condition) {
    return new Question(
        what,
        expected ? condition : "!(" + condition + ')',
        expected ? "not there" : "there",
        expected ? "there" : "not there");
  }

  /** The lines that make the preprocessor print the number of the question if it is not so. */
  String asPreprocessorLines(int number) {
    return "#if !(%s)%n@%d %s%n#endif%n".formatted(condition, number, found);
  }
}
