package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.sizing.CostTables;
import dev.ullage.sizing.Estimate;
import dev.ullage.target.Target;
import java.io.IOException;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** What is in the file, before a browser sees it. */
class SurveyPageTextTest {
  private static final CostTables COSTS = CostTables.packed();
  private static final List<Target> TARGETS =
      List.of(Figures.target("attiny85"), Figures.target("atmega8"), Figures.target("attiny13a"));

  private static SurveyPage page(Loop loop) {
    return SurveyPage.of(loop, Survey.of(loop, TARGETS, COSTS), COSTS);
  }

  private static JsonNode data(String html) throws IOException {
    Matcher data = Pattern.compile("id=\"data\">(.*?)</script>").matcher(html);
    assertTrue(data.find());
    return new ObjectMapper().readTree(data.group(1));
  }

  /** Each point of a what-if plot is the estimate of that loop on that part. */
  @Test
  void curves_areEstimatesOfRealPlans() throws IOException {
    JsonNode data = data(page(Figures.LOOP).html());
    int column = new ObjectMapper().convertValue(data.get("columns"), List.class).indexOf("curve");
    JsonNode readings = data.get("axes").get(1);
    assertEquals("readings", readings.get("key").asText());
    int checked = 0;
    for (int row = 0; row < TARGETS.size(); row++) {
      JsonNode curve =
          data.get("curves").get(data.get("rows").get(row).get(column).asInt()).get("readings");
      for (int i = 1; i < readings.get("values").size(); i++) {
        String average =
            "average: {over_time: moving, readings: "
                + readings.get("values").get(i).get(0).asText()
                + "}\n";
        Loop loop = LoopReader.read("x.yaml", LOOP_TEXT + average);
        Assessment alone = Survey.of(loop, List.of(TARGETS.get(row)), COSTS).rows().get(0);
        Estimate estimate = alone.estimate().orElseThrow();
        assertEquals(estimate.flash().high(), curve.get(0).get(i).asInt());
        assertEquals(estimate.staticRam() + estimate.stack(), curve.get(1).get(i).asInt());
        checked++;
      }
    }
    assertTrue(checked >= 20, checked + " points");
  }

  private static final String LOOP_TEXT =
      """
      loop: cold-store guard
      sensor: {bus: i2c, address: 0x48, frame: {sample_bytes: 2, shift_right: 5}, scale: {gain: 0.125}}
      alarm: {when: above, threshold: 8}
      outputs: {lamp: {blink_ms: 0}}
      """;

  @Test
  void valueThatBreaksARule_isLeftOutWithTheReason() {
    Loop loop =
        LoopReader.read("x.yaml", LOOP_TEXT + "bus_driver: buffered\nbuffer: {receive_bytes: 4}\n");
    WhatIf samples = WhatIf.of(loop).get(0);
    assertEquals(
        List.of("1", "2", "4", "8", "16", "32", "64"),
        samples.variants().stream().map(WhatIf.Variant::value).toList());
    WhatIf.Variant four = samples.variants().get(2);
    assertTrue(four.loop().isEmpty());
    assertTrue(
        four.why().contains("at most 4 bytes long, to fit `buffer.receive_bytes`"), four.why());
    assertTrue(samples.variants().get(1).loop().isPresent());
  }

  @Test
  void parts_shareWhatIsEqual() throws IOException {
    List<Target> twins = List.of(Figures.target("attiny45"), Figures.target("attiny85"));
    Survey survey = Survey.of(Figures.LOOP, twins, COSTS);
    JsonNode data = data(SurveyPage.of(Figures.LOOP, survey, COSTS).html());
    assertEquals(2, data.get("rows").size());
    assertEquals(1, data.get("curves").size());
  }

  /** A name is any text; a unit and pins are too, as far as the reader lets them. */
  @Test
  void markup_staysTextAndEndsNothing() throws IOException {
    String hostile = "</script><script>alert(1)</script><!--\u2028'\"&amp;]]>";
    Loop loop = Figures.LOOP;
    Loop named =
        new Loop(
            hostile,
            loop.periodMs(),
            loop.sensor(),
            loop.average(),
            loop.alarm(),
            loop.outputs(),
            loop.extras(),
            loop.board(),
            loop.busDriver(),
            loop.buffer(),
            loop.bring(),
            loop.margin());
    String html = page(named).html();
    assertEquals(2, html.split("<script", -1).length - 1);
    assertEquals(2, html.split("</script", -1).length - 1);
    assertFalse(html.contains("<!--"), "a comment");
    assertEquals(hostile, data(html).get("loop").asText());
  }

  @Test
  void file_isTheSameInEveryLocale() {
    String expected = page(Figures.LOOP).html();
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag("ar-EG-u-nu-arab"));
      assertEquals(expected, page(Figures.LOOP).html());
    } finally {
      Locale.setDefault(before);
    }
  }

  /** Nothing is fetched: no address of anything outside the file. */
  @Test
  void file_needsNoNetwork() {
    String html = page(Figures.LOOP).html();
    String without = html.replace("http://www.w3.org/2000/svg", "");
    assertFalse(without.matches("(?s).*(https?:)?//[a-z].*\\.(com|org|net|io).*"), "an address");
    assertFalse(html.contains("src=\""), "something to load");
  }
}
