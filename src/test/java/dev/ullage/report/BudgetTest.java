package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.junit.jupiter.api.Test;

class BudgetTest {
  private static final Style PLAIN = new Style(80, false);

  private static Budget budget(Assessment assessment) {
    return new Budget(Figures.LOOP, assessment);
  }

  @Test
  void text_goesFromTheAnswerToEachByte() {
    String text = budget(Figures.fits()).text(Format.TEXT, PLAIN);
    assertEquals(
        """
        cold-store guard on ATtiny85 (avr25), in bytes:

        fits: 446 B of RAM and 7066 B of flash stay free.

                            needed  yours  margin    of  left
        flash           690 to 716      0     410  8192  7066
        RAM    12 fixed + 38 stack      0      16   512   446

        flash [######mmmm..............................................................]
        RAM   [##vvvvvmm...............................................................]
              # code or fixed, ? perhaps, v stack, y yours, m margin, . left, ! too much

        module    flash  RAM
        start-up     54    0
        average     128   10
        alarm       520    2
        together    702   12

        buffer            RAM  module   in the C text
        averaging window    8  average  window

        deepest path    stack  so far
        main                2       2
        reading_take       25      27
        tick interrupt     11      38

        Grade: measured on this core. Flash by module is the likely figure, the interval
        holds what the linker will say; fixed RAM is exact; stack is a bound, with the
        deepest interrupt on top.

        """,
        text.substring(0, text.indexOf("bus    ")));
    assertTrue(text.contains("\nbus    bitbang: the part's serial interface (USI)"), text);
    assertTrue(text.contains("\npins   sda PB"), text);
  }

  @Test
  void text_drawsWhatIsTooMuch() {
    String text = budget(Figures.over()).text(Format.TEXT, PLAIN);
    assertTrue(text.contains("over: fixed 12 B + stack 38 B"), text);
    assertTrue(text.contains("m!!]"), text);
  }

  @Test
  void target_thatLacksSomething_getsTheReasonOnly() {
    assertEquals(
        """
        cold-store guard on ATtiny25 (avr25), in bytes:

        lacks: no pin is left for the lamp.
        """,
        budget(Figures.lacks("attiny25")).text(Format.TEXT, PLAIN));
  }

  @Test
  void json_addsThePartsToTheFieldsOfTheSurvey() throws IOException {
    JsonNode root = new ObjectMapper().readTree(budget(Figures.fits()).text(Format.JSON, PLAIN));
    assertEquals("ullage/budget/1", root.get("schema").asText());
    assertEquals("attiny85", root.get("target").asText());
    assertEquals(446, root.get("ram").get("headroom").asInt());
    assertEquals(410, root.get("margin").get("flash").asInt());
    assertEquals(
        "{\"name\":\"average\",\"flash\":128,\"ram\":10}", root.get("modules").get(1).toString());
    assertEquals("window", root.get("buffers").get(0).get("symbol").asText());
    assertEquals(25, root.get("stack_path").get(1).get("bytes").asInt());
    assertEquals(1_000_000, root.get("clock_hz").asInt());
    assertFalse(root.get("pins").get("sda").asText().isEmpty());
    assertTrue(root.get("bus_driver_reason").asText().contains("USI"));
  }

  @Test
  void csv_listsPartsOfThreeKinds() throws IOException {
    String csv = budget(Figures.fits()).text(Format.CSV, PLAIN);
    try (CSVParser parser = CSVParser.parse(csv, CSVFormat.RFC4180.builder().setHeader().build())) {
      var records = parser.getRecords();
      assertEquals(3 + 1 + 3, records.size());
      assertEquals("module", records.get(0).get("part"));
      assertEquals("54", records.get(0).get("flash"));
      assertEquals("buffer", records.get(3).get("part"));
      assertEquals("tick interrupt", records.get(6).get("name"));
    }
  }

  @Test
  void markdown_hasTheAnswerAndTheTables() {
    String page = budget(Figures.fits()).text(Format.MD, PLAIN);
    assertTrue(page.startsWith("# cold-store guard on ATtiny85\n\n**fits**: 446 B of RAM"), page);
    assertTrue(page.contains("| alarm | 520 | 2 |"), page);
    assertTrue(page.contains("| tick interrupt | 11 | 38 |"), page);
  }
}
