package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.report.MemoryMap.Memory;
import dev.ullage.report.MemoryMap.Region;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class MemoryPictureTest {
  private static final Memory FLASH =
      new Memory(
          "flash",
          1000,
          List.of(
              new Region('t', "vectors", 50),
              new Region('#', "code", 600),
              new Region('c', "constants", 0),
              new Region('m', "margin", 100)));

  private static Document parsed(Memory... memories) throws Exception {
    String svg = MemoryPicture.of("a \"part\" & <script>", List.of(memories));
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(svg)));
  }

  private static List<Element> elements(Document picture, String name) {
    NodeList found = picture.getElementsByTagName(name);
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < found.getLength(); i++) {
      elements.add((Element) found.item(i));
    }
    return elements;
  }

  /** Widths of the regions, which are the rectangles with a title. */
  private static List<Double> widths(Document picture) {
    return elements(picture, "rect").stream()
        .filter(each -> each.getElementsByTagName("title").getLength() > 0)
        .map(each -> Double.valueOf(each.getAttribute("width")))
        .toList();
  }

  @Test
  void regions_areInProportion() throws Exception {
    List<Double> widths = widths(parsed(FLASH));
    assertEquals(3, widths.size(), "what is empty is left out");
    assertEquals(12, widths.get(1) / widths.get(0), 0.02, "600 to 50");
    assertEquals(688 * 0.6, widths.get(1), 0.02, "600 of 1000");
  }

  @Test
  void whatIsTooMuch_hasTheEndMarked() throws Exception {
    Document fits = parsed(FLASH);
    assertTrue(elements(fits, "line").isEmpty());
    Document over = parsed(new Memory("RAM", 64, List.of(new Region('#', "variables", 128))));
    Element end = elements(over, "line").get(0);
    assertEquals(16 + 688 / 2.0, Double.parseDouble(end.getAttribute("x1")), 0.02);
    assertTrue(elements(over, "desc").get(0).getTextContent().contains("64 too much"));
  }

  @Test
  void names_stayText() throws Exception {
    Document picture = parsed(FLASH);
    assertTrue(elements(picture, "script").isEmpty());
    assertTrue(elements(picture, "title").get(0).getTextContent().contains("<script>"));
  }

  @Test
  void everyRegion_isListedWithItsBytes() throws Exception {
    List<String> texts =
        elements(parsed(FLASH), "text").stream().map(Element::getTextContent).toList();
    assertTrue(texts.containsAll(List.of("vectors 50", "code 600", "margin 100", "free 250")));
  }
}
