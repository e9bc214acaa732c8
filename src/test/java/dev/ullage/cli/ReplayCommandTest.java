package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class ReplayCommandTest {
  private static final String COLD = "generated-samples/cold-store/cold-store.yaml";
  private static final String COLD_TRACE = "generated-samples/cold-store/trace.csv";
  private static final String HIVE = "generated-samples/bee-hive/bee-hive.yaml";
  private static final String HIVE_TRACE = "generated-samples/bee-hive/trace.csv";

  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"bee-hive", "bilge", "cold-store", "compost-heap", "grain-dryer"})
  void samples_fitTheTerminal(String sample) {
    String place = "generated-samples/" + sample + "/";
    Run run = Run.of("replay", place + sample + ".yaml", place + "trace.csv");
    assertTrue(run.isGood(), run.err());
    // A grid of eight columns with decimals may need more; nothing else does.
    long wide = run.out().lines().filter(line -> line.length() > 80).count();
    assertEquals(0, wide, run.out());
    assertTrue(run.out().contains("alarm |"), run.out());
    assertTrue(run.out().contains("readings "), run.out());
  }

  @Test
  void json_hasEventsAndSummary() throws IOException {
    Run run = Run.of("replay", COLD, COLD_TRACE, "--limit", "7", "--format=json");
    JsonNode json = new ObjectMapper().readTree(run.out());
    assertEquals("ullage/replay/1", json.get("schema").asText());
    assertEquals(334, json.get("events").get(0).get("reading").asInt());
    assertEquals(333_000, json.get("events").get(0).get("time_ms").asInt());
    assertTrue(json.get("events").get(0).get("alarm").asBoolean());
    assertEquals(1, json.get("summary").get("alarms").asInt());
    assertEquals(156_000, json.get("summary").get("alarm_ms").asInt());
    assertEquals(600_000, json.get("summary").get("length_ms").asInt());
  }

  @Test
  void csv_hasARowForEachReading() {
    Run run = Run.of("replay", COLD, COLD_TRACE, "--format=csv");
    assertEquals(601, run.out().lines().count());
    assertTrue(run.out().startsWith("reading,time_ms,good,average,alarm\r\n1,0,1,4.125,0\r\n"));
  }

  @Test
  void pictures_areWellFormedAndEscaped() throws Exception {
    Path loop = folder.resolve("evil.yaml");
    Files.writeString(
        loop,
        Files.readString(Path.of(HIVE))
            .replaceFirst("loop: .*", "loop: '</text><script>alert(1)</script>&\"'")
            .replace("unit: degC", "unit: \"<b>&\""));
    Path plot = folder.resolve("plot.svg");
    Path frames = folder.resolve("frames.svg");
    Run run =
        Run.of(
            "replay",
            loop.toString(),
            HIVE_TRACE,
            "--plot",
            plot.toString(),
            "--frames",
            frames.toString(),
            "--frame",
            "1",
            "--frame",
            "150");
    assertTrue(run.isGood(), run.err());
    Document drawn = parsed(Files.readString(frames));
    assertEquals(0, drawn.getElementsByTagName("script").getLength());
    // Two frames of sixteen cells, most of them marked by a frame of their own.
    assertTrue(drawn.getElementsByTagName("rect").getLength() >= 32);
    assertTrue(drawn.getDocumentElement().getTextContent().contains("<script>alert(1)</script>"));
    assertEquals(0, parsed(Files.readString(plot)).getElementsByTagName("script").getLength());
  }

  private static Document parsed(String text) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(text)));
  }

  @Test
  void linesAsTheyArrive_areShownAtOnceAndSummedUp() {
    String lines = "4.0\r\n4.0\r\n20\r\n20\r\n20\r\ngarb3ge\r\n20\r\n-\r\n4\r\n";
    Run run = Run.with(lines, Map.of(), "replay", COLD, "-", "--limit", "7");
    assertEquals(ExitCode.FINDINGS, run.code());
    assertEquals("standard input:6:1: `column 1` must be a number, but was garb3ge\n", run.err());
    assertTrue(run.out().startsWith("alarm on, reading "), run.out());
    assertTrue(run.out().contains("readings 8 in 8 s, 1 failed."), run.out());
  }

  /** A latched alarm goes off once the button was pressed, in what is shown and in the sum. */
  @Test
  void muteButton_isPressedWhereAskedOnLinesThatArriveToo() throws IOException {
    Path loop = folder.resolve("latched.yaml");
    Files.writeString(
        loop,
        """
        loop: latched
        sensor:
          bus: i2c
          address: 0x4D
          frame: {sample_bytes: 2, signed: true}
          scale: {gain: 0.1, offset: 0, unit: degC}
        alarm: {when: above, threshold: 30, latch: true}
        outputs: {lamp: {blink_ms: 0}}
        extras: {mute_button: true}
        """);
    Run run =
        Run.with("31\n20\n20\n20\n", Map.of(), "replay", loop.toString(), "-", "--mute-after", "2");
    assertTrue(run.isGood(), run.err());
    assertTrue(run.out().contains("alarm off, reading 3, after 2 s"), run.out());
    assertTrue(run.out().contains("alarm    on once, for 2 s in all"), run.out());
  }

  @Test
  void noLines_isBadInput() {
    Run run = Run.with("", Map.of(), "replay", COLD, "-");
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertEquals(
        "standard input: the file must be a trace with at least one reading, but was without any\n",
        run.err());
  }

  @Test
  void knobThatIsNotThere_isWrongUse() {
    Run turned = Run.of("replay", COLD, COLD_TRACE, "--limit", "70");
    assertEquals(ExitCode.WRONG_USE, turned.code());
    assertTrue(turned.err().startsWith("`--limit` must be from 2"), turned.err());
    Run frame = Run.of("replay", COLD, COLD_TRACE, "--frame", "0");
    assertEquals(ExitCode.WRONG_USE, frame.code());
    assertTrue(
        frame.err().startsWith("`--frame` must be the number of a reading, from 1 to 600"),
        frame.err());
    assertFalse(frame.err().contains("Exception"));
  }

  @Test
  void wrongTrace_isBadInput() throws IOException {
    Path trace = folder.resolve("t.csv");
    Files.writeString(trace, "degC\n1\nwarm\n");
    Run run = Run.of("replay", COLD, trace.toString());
    assertEquals(ExitCode.BAD_INPUT, run.code());
    assertEquals(trace + ":3:1: `degC` must be a number, but was warm\n", run.err());
  }
}
