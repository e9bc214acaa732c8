package dev.ullage.report;

import dev.ullage.input.Printable;
import dev.ullage.report.MemoryMap.Memory;
import dev.ullage.report.MemoryMap.Region;
import java.io.StringWriter;
import java.util.List;
import java.util.Locale;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Memories as a picture (SVG 1.1): a bar for each, to its own scale, with regions in proportion and
 * a list of what they are. Colours are told apart by the list's order and numbers too.
 */
final class MemoryPicture {
  private static final int WIDTH = 720;
  private static final int EDGE = 16;
  private static final int BAR = 36;
  private static final int LINE = 18;
  private static final int COLUMNS = 3;

  /** Colours that people with any kind of colour vision tell apart: Okabe and Ito, 2008. */
  private static final List<String> COLORS =
      List.of(
          "#0072b2", "#e69f00", "#009e73", "#cc79a7", "#56b4e9", "#d55e00", "#f0e442", "#999999",
          "#332288", "#117733");

  private static final String FREE = "#eeeeee";
  private static final String INK = "#222222";

  private final StringWriter text = new StringWriter();
  private final XMLStreamWriter svg;
  private int y;

  private MemoryPicture() throws XMLStreamException {
    this.svg = XMLOutputFactory.newFactory().createXMLStreamWriter(text);
  }

  /**
   * @param title what the picture is of, in words
   */
  static String of(String title, List<Memory> memories) {
    try {
      MemoryPicture picture = new MemoryPicture();
      picture.draw(Printable.of(title), memories);
      return picture.text.append('\n').toString();
    } catch (XMLStreamException e) {
      throw new IllegalStateException(e);
    }
  }

  private void draw(String title, List<Memory> memories) throws XMLStreamException {
    int height = EDGE + LINE + memories.stream().mapToInt(MemoryPicture::height).sum();
    svg.writeStartElement("svg");
    svg.writeDefaultNamespace("http://www.w3.org/2000/svg");
    attributes("width", WIDTH, "height", height, "viewBox", "0 0 " + WIDTH + ' ' + height);
    attributes("role", "img", "font-family", "sans-serif", "font-size", "13");
    line("title", title);
    rectangle(0, 0, WIDTH, height, "#ffffff", "");
    y = EDGE + LINE / 2;
    words(EDGE, y, title, "bold");
    y += LINE / 2;
    for (Memory each : memories) {
      memory(each);
    }
    newLine();
    svg.writeEndElement();
    svg.flush();
  }

  private static int height(Memory memory) {
    return LINE + BAR + LINE * rows(memory) + EDGE;
  }

  private static int rows(Memory memory) {
    return (memory.regions().size() + 1 + COLUMNS - 1) / COLUMNS;
  }

  private void memory(Memory memory) throws XMLStreamException {
    int left = memory.capacity() - memory.taken();
    String state = left >= 0 ? left + " left" : -left + " too much";
    words(EDGE, y + 13, memory.name() + ", " + memory.capacity() + " bytes, " + state, "normal");
    y += LINE;
    bar(memory, Math.max(memory.capacity(), memory.taken()));
    y += BAR;
    list(memory, left);
    y += LINE * rows(memory) + EDGE;
  }

  private void bar(Memory memory, int scale) throws XMLStreamException {
    rectangle(EDGE, y, WIDTH - 2 * EDGE, BAR, FREE, "free");
    long at = 0;
    for (int i = 0; i < memory.regions().size(); i++) {
      Region region = memory.regions().get(i);
      double from = place(at, scale);
      at += region.bytes();
      rectangle(
          from, y, place(at, scale) - from, BAR, color(i), region.name() + ' ' + region.bytes());
    }
    if (memory.taken() > memory.capacity()) {
      double end = place(memory.capacity(), scale);
      svg.writeCharacters("\n");
      svg.writeEmptyElement("path");
      attributes("d", "M" + number(end) + ' ' + (y - 3) + 'v' + (BAR + 6));
      attributes("stroke", "#d00000", "stroke-width", "2");
    }
  }

  private static double place(long bytes, int scale) {
    return EDGE + (WIDTH - 2.0 * EDGE) * bytes / Math.max(1, scale);
  }

  private void list(Memory memory, int left) throws XMLStreamException {
    for (int i = 0; i <= memory.regions().size(); i++) {
      double x = EDGE + (i % COLUMNS) * (WIDTH - 2.0 * EDGE) / COLUMNS;
      int top = y + LINE * (i / COLUMNS) + 5;
      boolean last = i == memory.regions().size();
      if (last && left <= 0) {
        return;
      }
      String words =
          last
              ? "free " + left
              : memory.regions().get(i).name() + ' ' + memory.regions().get(i).bytes();
      rectangle(x, top, 10, 10, last ? FREE : color(i), "");
      words(x + 15, top + 10, Printable.of(words), "normal");
    }
  }

  private static String color(int region) {
    return COLORS.get(region % COLORS.size());
  }

  private void rectangle(
      double x, double top, double width, double height, String color, String title)
      throws XMLStreamException {
    newLine();
    svg.writeStartElement("rect");
    attributes("x", number(x), "y", number(top), "width", number(width), "height", number(height));
    attributes("fill", color, "stroke", "#ffffff", "stroke-width", "0.5");
    if (!title.isEmpty()) {
      line("title", Printable.of(title));
    }
    svg.writeEndElement();
  }

  private void words(double x, double base, String words, String weight) throws XMLStreamException {
    newLine();
    svg.writeStartElement("text");
    attributes("x", number(x), "y", number(base), "fill", INK, "font-weight", weight);
    svg.writeCharacters(words);
    svg.writeEndElement();
  }

  private void line(String element, String words) throws XMLStreamException {
    svg.writeStartElement(element);
    svg.writeCharacters(words);
    svg.writeEndElement();
  }

  private void newLine() throws XMLStreamException {
    svg.writeCharacters("\n");
  }

  private void attributes(Object... namesAndValues) throws XMLStreamException {
    for (int i = 0; i < namesAndValues.length; i += 2) {
      svg.writeAttribute(String.valueOf(namesAndValues[i]), String.valueOf(namesAndValues[i + 1]));
    }
  }

  private static String number(double value) {
    String text = String.format(Locale.ROOT, "%.2f", value);
    return text.endsWith(".00") ? text.substring(0, text.length() - 3) : text;
  }
}
