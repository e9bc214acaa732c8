package dev.ullage.loop;

import dev.ullage.input.Nearest;
import dev.ullage.input.Node;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** What most likely helps against a value of the wrong shape: the known mistakes, one by one. */
final class Cures {
  private static final List<String> YES = List.of("yes", "y", "on", "1", "true");
  private static final List<String> NO = List.of("no", "n", "off", "0", "false");

  /** What people write for words of ours; the word is only offered where the key has it. */
  private static final Map<String, String> SYNONYMS =
      Map.ofEntries(
          Map.entry("msb", "big"),
          Map.entry("msb_first", "big"),
          Map.entry("be", "big"),
          Map.entry("big_endian", "big"),
          Map.entry("lsb", "little"),
          Map.entry("lsb_first", "little"),
          Map.entry("le", "little"),
          Map.entry("little_endian", "little"),
          Map.entry("average", "mean"),
          Map.entry("avg", "mean"),
          Map.entry("maximum", "max"),
          Map.entry("minimum", "min"),
          Map.entry("mean", "average"),
          Map.entry("over", "above"),
          Map.entry(">", "above"),
          Map.entry("under", "below"),
          Map.entry("<", "below"),
          Map.entry("true", "high"),
          Map.entry("1", "high"),
          Map.entry("false", "low"),
          Map.entry("0", "low"),
          Map.entry("twi", "i2c"),
          Map.entry("iic", "i2c"),
          Map.entry("software", "bitbang"),
          Map.entry("interrupt", "buffered"));

  private Cures() {}

  /** For a value where a mapping has to stand. */
  static Optional<String> forGroup(Node value) {
    if (Node.isNothing(value)) {
      return Optional.of("write {} to take the default of each key, or indent its keys below it");
    }
    if (value instanceof Node.Scalar scalar && scalar.plain()) {
      return spaceAfterColon(scalar.text());
    }
    return Optional.empty();
  }

  private static Optional<String> spaceAfterColon(String text) {
    int colon = text.indexOf(':');
    if (colon <= 0) {
      return Optional.empty();
    }
    String spaced = text.substring(0, colon) + ": " + text.substring(colon + 1).strip();
    return Optional.of("put a space after the colon: `" + spaced + "`");
  }

  /** For a value that is not of its shape. */
  static Optional<String> forValue(Shape shape, String path, Node node) {
    if (shape instanceof Shape.Bytes) {
      return forBytes(node);
    }
    if (!(node instanceof Node.Scalar scalar)) {
      return Optional.empty();
    }
    if (scalar.isNothing()) {
      return Optional.of("write a value after the colon");
    }
    if (shape instanceof Shape.Flag) {
      return forFlag(scalar);
    }
    if (shape instanceof Shape.Choice choice) {
      return forChoice(choice, scalar.text());
    }
    if (shape instanceof Shape.PinName) {
      return forPin(scalar.text());
    }
    return shape instanceof Shape.Text ? Optional.empty() : NumberCures.of(shape, path, scalar);
  }

  private static Optional<String> forFlag(Node.Scalar scalar) {
    String word = scalar.text().toLowerCase(Locale.ROOT);
    if (YES.contains(word)) {
      return Optional.of("YAML 1.2 knows only true and false, without quotes: write true");
    }
    if (NO.contains(word)) {
      return Optional.of("YAML 1.2 knows only true and false, without quotes: write false");
    }
    return Optional.empty();
  }

  private static Optional<String> forChoice(Shape.Choice choice, String text) {
    String word = text.toLowerCase(Locale.ROOT).replace('-', '_').replace(' ', '_');
    if (choice.later().contains(word)) {
      return Optional.empty();
    }
    String known = SYNONYMS.getOrDefault(word, word);
    if (choice.words().contains(word) || choice.words().contains(known)) {
      return Optional.of("write " + (choice.words().contains(word) ? word : known));
    }
    return Nearest.to(word, choice.words()).map(nearest -> "did you mean " + nearest + "?");
  }

  private static Optional<String> forPin(String text) {
    String upper = text.toUpperCase(Locale.ROOT);
    if (ValueReader.isPin(upper)) {
      return Optional.of("write " + upper);
    }
    return Numbers.whole(text)
        .map(number -> "write the pin's name: its number differs from package to package");
  }

  private static Optional<String> forBytes(Node node) {
    if (node instanceof Node.Scalar scalar) {
      Optional<Long> value = Numbers.whole(scalar.text()).filter(number -> number >= 0);
      return value.filter(number -> number <= 0xFFFF).map(Cures::listOf);
    }
    return Optional.empty();
  }

  private static String listOf(long value) {
    return value <= 0xFF
        ? "write [" + Hex.shown(value) + "]"
        : "write [" + Hex.shown(value >> 8) + ", " + Hex.shown(value & 0xFF) + "]";
  }
}
