package dev.ullage.report;

import dev.ullage.input.Printable;
import java.io.StringWriter;
import java.math.BigDecimal;
import java.math.RoundingMode;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * One SVG document, written element by element. Whatever text it is given stays text. Light or dark
 * as the viewer is.
 */
final class Svg {
  private static final String NAMESPACE = "http://www.w3.org/2000/svg";
  private static final String STYLE =
      """
      svg { font: 12px sans-serif; background: #ffffff; color: #1c1c1c }
      text { fill: currentColor }
      .frame { fill: none; stroke: currentColor }
      .faint { stroke: currentColor; stroke-opacity: 0.25 }
      @media (prefers-color-scheme: dark) { svg { background: #16181d; color: #e8e8e8 } }
      """;

  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter xml;

  /**
   * @param title what it is a picture of
   * @param description the same in a sentence, for those who cannot see it
   * @param style rules of its own, in CSS
   */
  Svg(int width, int height, String title, String description, String style) {
    try {
      xml = XMLOutputFactory.newFactory().createXMLStreamWriter(text);
      xml.writeStartDocument("UTF-8", "1.0");
      xml.writeCharacters("\n");
    } catch (XMLStreamException e) {
      throw new IllegalStateException(e);
    }
    open(
        "svg",
        "xmlns",
        NAMESPACE,
        "viewBox",
        "0 0 " + width + " " + height,
        "width",
        width,
        "height",
        height,
        "role",
        "img");
    leaf("title", title);
    leaf("desc", description);
    leaf("style", STYLE + style);
  }

  /**
   * Begins an element.
   *
   * @param attributes names and values in turn; numbers are written with two decimals at most
   */
  Svg open(String name, Object... attributes) {
    try {
      xml.writeStartElement(name);
      for (int i = 0; i < attributes.length; i += 2) {
        xml.writeAttribute((String) attributes[i], value(attributes[i + 1]));
      }
    } catch (XMLStreamException e) {
      throw new IllegalStateException(e);
    }
    return this;
  }

  Svg close() {
    try {
      xml.writeEndElement();
      xml.writeCharacters("\n");
    } catch (XMLStreamException e) {
      throw new IllegalStateException(e);
    }
    return this;
  }

  /** An element without anything inside. */
  Svg shape(String name, Object... attributes) {
    return open(name, attributes).close();
  }

  /**
   * A line of text.
   *
   * @param anchor {@code start}, {@code middle} or {@code end}
   */
  Svg text(double x, double y, String anchor, String content) {
    return open("text", "x", x, "y", y, "text-anchor", anchor).characters(content).close();
  }

  Svg characters(String content) {
    try {
      xml.writeCharacters(Printable.of(content));
    } catch (XMLStreamException e) {
      throw new IllegalStateException(e);
    }
    return this;
  }

  private void leaf(String name, String content) {
    open(name);
    content.lines().forEach(line -> characters(line).characters(name.equals("style") ? " " : ""));
    close();
  }

  /** The whole document, once everything is closed. */
  String end() {
    try {
      xml.writeEndDocument();
      xml.writeCharacters("\n");
    } catch (XMLStreamException e) {
      throw new IllegalStateException(e);
    }
    return text.toString();
  }

  private static String value(Object value) {
    return value instanceof Double number ? number(number) : Printable.of(value.toString());
  }

  /** Two decimals at most. */
  static String number(double value) {
    BigDecimal rounded = BigDecimal.valueOf(value).setScale(2, RoundingMode.HALF_UP);
    return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
  }
}
