package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.firmware.Firmware;
import dev.ullage.wiring.PinMap;
import dev.ullage.wiring.PinUse;
import dev.ullage.wiring.Wirings;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class PackageDrawingTest {
  private static final int WIDTH = 80;

  private static PackageDrawing drawing(Firmware firmware, String pack) {
    return new PackageDrawing(PinMap.of(firmware, pack).orElseThrow());
  }

  private static String text(Firmware firmware, String pack) {
    return String.join("\n", drawing(firmware, pack).lines(WIDTH)) + "\n";
  }

  private static List<PinMap> allMaps() {
    return Wirings.all().flatMap(firmware -> PinMap.of(firmware).stream()).toList();
  }

  @Test
  void twoRows_areDrawnAsInTheDataSheet() {
    assertEquals(
        """
                        +---------+
        (reset)  PB5 1 -|o        |- 8 VCC  supply
           lamp  PB3 2 -|         |- 7 PB2  bus clock
           knob  PB4 3 -|         |- 6 PB1  bus data
         ground  GND 4 -|         |- 5 PB0  sounder*
                        +---------+
        In brackets: left alone, but not free. With a star: named in the loop file.
        """,
        text(
            Wirings.of(
                "attiny85",
                "alarm: {when: above, knob: {from: 2, to: 12}}\n"
                    + "outputs: {lamp: {}, sounder: {}}\n"
                    + "board: {pins: {sounder: PB0}}\n"),
            "SOIC-8"));
  }

  @Test
  void fourSides_leadToWordsAtTheLeft() {
    assertEquals(
        """
                  NC 16 ---------------+
                  NC 17 ------------+  |
                  NC 18 ---------+  |  |
                  NC 19 ------+  |  |  |
                  NC 20 ---+  |  |  |  |
                         +-+--+--+--+--+-+
        (reset)  PB5  1 -|o              |- 15 VCC  supply
                 PB3  2 -|   ATtiny85    |- 14 PB2  bus clock
                  NC  3 -|    QFN-20     |- 13 NC
                  NC  4 -|               |- 12 PB1  bus data
                 PB4  5 -|               |- 11 PB0  lamp
                         +-+--+--+--+--+-+
                  NC  6 ---+  |  |  |  |
                  NC  7 ------+  |  |  |
         ground  GND  8 ---------+  |  |
                  NC  9 ------------+  |
                  NC 10 ---------------+
        The pad below goes to ground.
        In brackets: left alone, but not free. Without a word: free. NC: not connected.
        """,
        text(Wirings.of("attiny85", ""), "QFN-20"));
  }

  @Test
  void chipCarrier_hasPinOneInTheMiddleAbove() {
    List<String> lines = drawing(Wirings.of("atmega8535", ""), "PLCC-44").lines(WIDTH);
    assertTrue(lines.get(0).contains("PA3 40 -----------------------+"), lines.get(0));
    assertTrue(lines.get(5).contains("GND  1 -------------+ | | | | |"), lines.get(5));
    assertTrue(lines.get(12).contains("PB5  7 -|           o           |- 39 PA4"), lines.get(12));
  }

  @Test
  void balls_standInTheirGrid() {
    assertEquals(
        """
            1           2           3           4
        A               PA5         PA6         PB2
                                                bus data*
        B   PA4         PA7         PB1         PB3
                                                (reset)
        C   PA3         PA2         PA1         PB0
                        bus clock*
        D   PA0         GND         GND         VCC
            lamp        ground      ground      supply
        In brackets: left alone, but not free. With a star: named in the loop file.
        Without a word: free.
        """,
        text(Wirings.of("attiny84a", "board: {pins: {sda: PB2, scl: PA2}}\n"), "BGA-15"));
  }

  @Test
  void everyPackage_isDrawnInLinesOfAsciiThatFit() {
    for (PinMap map : allMaps()) {
      for (int columns : new int[] {WIDTH, 60, 40}) {
        for (String line : new PackageDrawing(map).lines(columns)) {
          String where = map.part() + " " + map.pack() + ": " + line;
          assertTrue(line.length() <= columns, where);
          assertTrue(line.chars().allMatch(c -> c >= ' ' && c <= '~'), where);
          assertEquals(line.stripTrailing(), line, where);
        }
      }
    }
  }

  /** With its name beside its number, or in its place of the grid. */
  @Test
  void everyPin_isDrawnOnce() {
    for (PinMap map : allMaps()) {
      String text = String.join("\n", new PackageDrawing(map).lines(WIDTH));
      for (PinUse pin : map.leads()) {
        String name = Pattern.quote(PackageDrawing.name(pin));
        String label = Pattern.quote(PackageDrawing.label(pin));
        Pattern left =
            Pattern.compile("(?m)^ *" + label + " +" + name + " +" + pin.number() + " -");
        Pattern right =
            Pattern.compile("(?m)\\|- " + pin.number() + " +" + name + " *" + label + "$");
        long found = left.matcher(text).results().count() + right.matcher(text).results().count();
        assertEquals(
            BallGrid.of(map).isPresent() ? 0 : 1, found, map.part() + " " + map.pack() + pin);
      }
    }
  }

  /** What has room for a drawing is not merely listed. */
  @Test
  void everyPackage_isDrawnAndNotListed() {
    for (PinMap map : allMaps()) {
      assertFalse(
          new PackageDrawing(map).lines(WIDTH).get(0).startsWith("number"),
          map.part() + " " + map.pack());
    }
  }

  @Test
  void narrowTerminal_getsAList() {
    List<String> lines = drawing(Wirings.of("atmega328p", ""), "TQFP-32").lines(30);
    assertEquals("number  pin   use", lines.get(0));
    assertEquals("1       PD3", lines.get(1));
    assertEquals("3       GND   ground", lines.get(3));
  }

  private static Document parsed(String svg) throws Exception {
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

  /** Pictures of the same pinout are the same but for their names, so one of each will do. */
  @Test
  void everyPicture_hasEachPinOnceInsideItsEdges() throws Exception {
    Set<List<PinUse>> done = new HashSet<>();
    for (PinMap map : allMaps()) {
      if (done.add(map.pins())) {
        Document picture = parsed(new PackageDrawing(map).svg());
        List<String> titles =
            elements(picture, "g").stream()
                .map(g -> g.getElementsByTagName("title").item(0).getTextContent())
                .toList();
        assertEquals(
            map.leads().stream()
                .map(pin -> pin.number() + " " + pin.name() + ": " + pin.words())
                .sorted()
                .toList(),
            titles.stream().sorted().toList(),
            map.part() + " " + map.pack());
        assertInside(picture, map);
      }
    }
    assertTrue(done.size() > 100, done.size() + " pictures");
  }

  private static void assertInside(Document picture, PinMap map) {
    Element svg = picture.getDocumentElement();
    int width = Integer.parseInt(svg.getAttribute("width"));
    int height = Integer.parseInt(svg.getAttribute("height"));
    Set<String> places = new HashSet<>();
    for (Element g : elements(picture, "g")) {
      String place = g.getAttribute("transform");
      assertTrue(places.add(place), place);
      String[] xy = place.replaceAll("translate\\(([^)]*)\\).*", "$1").split(" ");
      String where = map.part() + " " + map.pack() + " " + place;
      assertTrue(Double.parseDouble(xy[0]) > 0 && Double.parseDouble(xy[0]) < width, where);
      assertTrue(Double.parseDouble(xy[1]) > 0 && Double.parseDouble(xy[1]) < height, where);
    }
  }

  @Test
  void picture_isDescribedForThoseWhoCannotSeeIt() throws Exception {
    Document picture = parsed(drawing(Wirings.of("attiny85", ""), "SOIC-8").svg());
    Element title = elements(picture, "title").get(0);
    assertEquals("ATtiny85 in SOIC-8, seen from above", title.getTextContent());
    assertEquals(
        "1 PB5: reset; 4 GND: ground; 5 PB0: lamp; 6 PB1: bus data; 7 PB2: bus clock; 8 VCC:"
            + " supply",
        elements(picture, "desc").get(0).getTextContent());
  }

  @Test
  void hostileNames_stayText() throws Exception {
    PinMap right = PinMap.of(Wirings.of("attiny85", "")).get(0);
    PinMap map = new PinMap("<script>\u001b[31m", "SOIC-8&\"", right.pins(), List.of());
    Document picture = parsed(new PackageDrawing(map).svg());
    assertTrue(elements(picture, "script").isEmpty());
    assertTrue(elements(picture, "title").get(0).getTextContent().startsWith("<script>\\u001b"));
  }
}
