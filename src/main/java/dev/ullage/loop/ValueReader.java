package dev.ullage.loop;

import dev.ullage.input.Findings;
import dev.ullage.input.Node;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads single values of a loop file in the form that their shape names. */
final class ValueReader {
  private final Findings findings;

  ValueReader(Findings findings) {
    this.findings = findings;
  }

  /** The value; empty, with a finding, where it is not of the shape. */
  Optional<Object> read(Shape shape, String path, Node node) {
    Optional<Object> value = Optional.empty();
    if (shape instanceof Shape.Bytes bytes) {
      return bytes(bytes, path, node);
    }
    if (node instanceof Node.Scalar scalar && !scalar.isNothing()) {
      value = scalar(shape, scalar);
    }
    if (value.isEmpty()) {
      report(shape, path, node);
    }
    return value;
  }

  private void report(Shape shape, String path, Node node) {
    String found = node.shown();
    if (shape instanceof Shape.Choice choice && choice.later().contains(found)) {
      found += ", which is not available yet";
    }
    Optional<String> cure = Cures.forValue(shape, path, node);
    findings.add(node.line(), node.column(), path, found, shape.expected(), cure);
  }

  private static Optional<Object> scalar(Shape shape, Node.Scalar scalar) {
    String text = scalar.text();
    if (shape instanceof Shape.Text limit) {
      return isName(text, limit.maxCharacters()) ? Optional.of(text) : Optional.empty();
    }
    if (shape instanceof Shape.PinName) {
      return isPin(text) ? Optional.of(text) : Optional.empty();
    }
    if (shape instanceof Shape.Choice choice) {
      return choice.words().contains(text) ? Optional.of(text) : Optional.empty();
    }
    if (!scalar.plain()) {
      return Optional.empty();
    }
    if (shape instanceof Shape.Flag) {
      return flag(text);
    }
    return shape instanceof Shape.Whole whole ? whole(whole, text) : decimal(shape, text);
  }

  private static Optional<Object> whole(Shape.Whole shape, String text) {
    return Numbers.whole(text).filter(shape::holds).map(Object.class::cast);
  }

  private static Optional<Object> decimal(Shape shape, String text) {
    return Numbers.decimal(text)
        .filter(value -> isHeld((Shape.Decimal) shape, value))
        .map(Object.class::cast);
  }

  private static boolean isHeld(Shape.Decimal shape, BigDecimal value) {
    return shape.holds(value) && value.scale() <= Shape.Decimal.MAX_DECIMALS;
  }

  private static Optional<Object> flag(String text) {
    return switch (text) {
      case "true", "True", "TRUE" -> Optional.of(true);
      case "false", "False", "FALSE" -> Optional.of(false);
      default -> Optional.empty();
    };
  }

  private Optional<Object> bytes(Shape.Bytes shape, String path, Node node) {
    if (!(node instanceof Node.Sequence list) || list.items().size() > shape.maxCount()) {
      report(shape, path, node);
      return Optional.empty();
    }
    List<Integer> bytes = new ArrayList<>();
    for (int i = 0; i < list.items().size(); i++) {
      read(Keys.BYTE, path + '[' + i + ']', list.items().get(i))
          .ifPresent(value -> bytes.add(Math.toIntExact((Long) value)));
    }
    return bytes.size() == list.items().size() ? Optional.of(List.copyOf(bytes)) : Optional.empty();
  }

  /** Printable, not blank: it becomes a comment, a title and the name of a folder. */
  static boolean isName(String text, int maxCharacters) {
    return text.codePoints().anyMatch(c -> !Character.isWhitespace(c) && !Character.isSpaceChar(c))
        && text.codePointCount(0, text.length()) <= maxCharacters
        && text.codePoints().allMatch(ValueReader::isPrintable);
  }

  private static boolean isPrintable(int c) {
    return switch (Character.getType(c)) {
      case Character.CONTROL,
              Character.FORMAT,
              Character.SURROGATE,
              Character.LINE_SEPARATOR,
              Character.PARAGRAPH_SEPARATOR ->
          false;
      default -> true;
    };
  }

  /**
   * An upper-case letter, then upper-case letters and digits; a dot or a line may part a port off.
   */
  static boolean isPin(String text) {
    return text.length() >= 2
        && text.length() <= Shape.PinName.MAX_CHARACTERS
        && text.matches(Shape.PinName.PATTERN);
  }
}
