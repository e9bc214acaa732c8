package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

class SurveyTest {
  private static final Style PLAIN = new Style(80, false);

  @Test
  void text_answersFirstAndExplainsAfterwards() {
    assertEquals(
        """
        cold-store guard, in bytes:

              target     flash         RAM       flash   RAM  bus      limit  grade
                            <=  of  fixed+   of   left  left  driver
                                     stack
        fits  attiny85     716  8K   12+38  512   7066   446  bitbang  ram    measured
        over  attiny13a    716  1K   12+38   64    256    -2  bitbang  ram    measured
        lacks attiny25       -  2K       -  128      -     -  -        pin    -
        lacks attiny45       -  4K       -  256      -     -  -        pin    -

        over on attiny13a:
          fixed 12 B + stack 38 B + margin 16 B = 66 B, but 64 B of RAM.

        lacks on attiny25, attiny45:
          no pin is left for the lamp.

        4 targets: 1 fits, 0 tight, 1 over, 2 lacks.
        Flash is an estimate that the linker's figure does not exceed; fixed RAM is
        exact; stack is a bound, with the deepest interrupt on top. Left is what remains
        after the margin. Grade `measured` is from a table of this core, `modelled` from
        a sibling core's; `listed` means that only the limits of the part are known.
        Measured with avr-gcc 5.4.0 -Os.
        """,
        Figures.survey().text(Format.TEXT, PLAIN));
  }

  @Test
  void wideTerminal_showsTheWholeInterval() {
    String wide = Figures.survey().text(Format.TEXT, new Style(120, false));
    assertTrue(wide.contains("690..716"), wide);
    assertFalse(Figures.survey().text(Format.TEXT, PLAIN).contains("690"));
  }

  @Test
  void color_paintsTheVerdictOnly() {
    String painted = Figures.survey().text(Format.TEXT, new Style(80, true));
    assertTrue(painted.contains("\u001b[32mfits\u001b[0m  attiny85"), painted);
    assertEquals(
        Figures.survey().text(Format.TEXT, PLAIN), painted.replaceAll("\u001b\\[[0-9]+m", ""));
  }

  @Test
  void json_hasTheDocumentedFields() throws IOException {
    JsonNode root = new ObjectMapper().readTree(Figures.survey().text(Format.JSON, PLAIN));
    assertEquals("ullage/survey/1", root.get("schema").asText());
    assertEquals("cold-store guard", root.get("loop").asText());
    JsonNode tiny = root.get("targets").get(0);
    assertEquals(
        new ObjectMapper()
            .readTree(
                """
                {"target": "attiny85", "family": "avr-tinyx5", "core": "avr25",
                 "grade": "measured", "verdict": "fits", "bus_driver": "bitbang",
                 "limiting": "ram", "reason": "446 B of RAM and 7066 B of flash stay free",
                 "flash": {"capacity": 8192, "low": 690, "likely": 702, "high": 716,
                           "headroom": 7066},
                 "ram": {"capacity": 512, "static": 12, "stack": 38, "headroom": 446}}
                """),
        tiny);
  }

  @Test
  void json_saysNullWhereNothingIsKnown() throws IOException {
    JsonNode root = new ObjectMapper().readTree(Figures.survey().text(Format.JSON, PLAIN));
    JsonNode lacking = root.get("targets").get(2);
    assertEquals("listed", lacking.get("grade").asText());
    assertTrue(lacking.get("bus_driver").isNull());
    assertTrue(lacking.get("flash").get("high").isNull());
    assertEquals(2048, lacking.get("flash").get("capacity").asInt());
  }

  @Test
  void csv_isReadBackByAnotherReader() throws IOException {
    String csv = Figures.survey().text(Format.CSV, PLAIN);
    try (CSVParser parser = CSVParser.parse(csv, CSVFormat.RFC4180.builder().setHeader().build())) {
      List<CSVRecord> records = parser.getRecords();
      assertEquals(4, records.size());
      CSVRecord over = records.get(1);
      assertEquals("attiny13a", over.get("target"));
      assertEquals("690", over.get("flash_low"));
      assertEquals("-2", over.get("ram_headroom"));
      assertEquals(
          "fixed 12 B + stack 38 B + margin 16 B = 66 B, but 64 B of RAM", over.get("reason"));
      assertEquals("", records.get(2).get("ram_static"));
    }
  }

  @Test
  void markdown_hasARowForEachTarget() {
    String page = Figures.survey().text(Format.MD, PLAIN);
    assertTrue(
        page.startsWith("# cold-store guard\n\nBytes. 1 fits, 0 tight, 1 over, 2 lacks.\n\n"));
    assertTrue(
        page.contains(
            "| fits | attiny85 | 690 to 716 | 8192 | 12 + 38 | 512 | 7066 | 446 | bitbang | ram"),
        page);
    long pipes = page.lines().filter(line -> line.startsWith("| ")).count();
    assertEquals(2 + 4, pipes);
  }

  @Test
  void hostileLoopName_cannotCommandATerminalOrAPage() {
    Survey survey = new Survey("\u001b[2Jcold\n<script>|", List.of(), List.of());
    for (Format format : Format.values()) {
      String text = survey.text(format, PLAIN);
      assertEquals(-1, text.indexOf('\u001b'), format.name());
    }
    assertTrue(survey.text(Format.TEXT, PLAIN).startsWith("\\u001b[2Jcold\\u000a<script>|"));
    assertTrue(survey.text(Format.MD, PLAIN).contains("\\<script\\>\\|"));
  }
}
