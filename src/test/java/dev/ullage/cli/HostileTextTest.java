package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/**
 * Every text that a loop file can hold, full of what ends comments, strings, cells and tags,
 * through every command and format: it stays text. The name of the loop file, the titles of a
 * trace's columns and the names in a program are as bad.
 */
class HostileTextTest {
  private static final Pattern TAG = Pattern.compile("<(/?[a-zA-Z!][a-zA-Z0-9]*)");
  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(\\.[0-9]+)?");
  private static final String HARMLESS = "plain";

  /** What this text would leave if a shell, make or a page ever ran it. */
  private static final String BROKEN_OUT = "HACKED";

  @TempDir private Path temp;

  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '~',
      delimiterString = " @@ ",
      value = {
        "*/ #error HACKED /* ??/ %s%n $(shell touch HACKED) `touch HACKED` \\ @@ */%n\"??/\\ @@ avr",
        "=1+cmd|' /C HACKED'!A1\",\"<img src=x onerror=HACKED()>]]>--></title>${x} @@ =2;<b>'&| @@ arm",
        "@'; touch HACKED; # $(HACKED) endef &lt; [a](javascript:HACKED) **b** | c @@ -1|`<i>`&\" @@ none",
      })
  void hostileText_staysText(String name, String unit, String machine) throws Exception {
    Path loop = temp.resolve("a<b>&'\"$(HACKED)=.yaml");
    Path harmless = temp.resolve("plain.yaml");
    Files.writeString(loop, file(name, unit));
    Files.writeString(harmless, file(HARMLESS, HARMLESS));
    String part = machine.equals("arm") ? "stm32f030f4" : "atmega328p";
    reports(name, List.of("survey", loop.toString(), "--package", "DIP-8"));
    pages(loop, harmless);
    reports(name, List.of("budget", loop.toString(), "-t", part));
    reports(name, List.of("slim", loop.toString(), "-t", part));
    List<String> wiring = List.of("wiring", loop.toString(), "-t", part);
    reports(name, wiring);
    Path drawing = temp.resolve("package.svg");
    withMore(wiring, "--format", "svg", "-o", drawing.toString());
    picture(drawing);
    again(loop, name, unit);
    replays(loop, name);
    Path folder = temp.resolve("firmware");
    text(run("emit", loop.toString(), "-t", part, "-o", folder.toString()));
    JsonNode origin = new ObjectMapper().readTree(folder.resolve("ullage.json").toFile());
    assertEquals(name, origin.at("/loop/name").asText());
    markdown(Files.readString(folder.resolve("README.md")));
    if (!machine.equals("none")) {
      build(folder, machine);
      audits(folder, loop, name, machine);
    }
    try (Stream<Path> all = Files.walk(temp)) {
      assertEquals(List.of(), all.filter(each -> each.endsWith(BROKEN_OUT)).toList());
    }
    assertFalse(Files.exists(Path.of(BROKEN_OUT)));
  }

  private static String file(String name, String unit) {
    return "loop: '"
        + name.replace("'", "''")
        + "'\n"
        + "sensor: {bus: i2c, address: 0x48, scale: {gain: 0.125, offset: 0, unit: '"
        + unit.replace("'", "''")
        + "'}}\nalarm: {when: above, threshold: 8}\n"
        + "outputs: {lamp: {blink_ms: 250}, sounder: {tone_hz: 2700}}\n"
        + "extras: {report: {baud: 9600}}\n";
  }

  private static String run(String... arguments) {
    Run run = Run.of(arguments);
    assertTrue(run.code() == ExitCode.GOOD || run.code() == ExitCode.FINDINGS, run.err());
    text(run.err());
    return run.out();
  }

  private static void reports(String name, List<String> command) throws IOException {
    text(formatted(command, "text").out());
    String coloured = withMore(command, "--color", "always").out();
    text(coloured.replaceAll("\u001b\\[[0-9;]*m", ""));
    JsonNode json = new ObjectMapper().readTree(formatted(command, "json").out());
    assertEquals(name, json.get("loop").asText());
    table(formatted(command, "csv").out());
    markdown(formatted(command, "md").out());
  }

  private static Run formatted(List<String> command, String format) {
    return withMore(command, "--format", format);
  }

  private static Run withMore(List<String> command, String... more) {
    List<String> all = new ArrayList<>(command);
    all.addAll(List.of(more));
    Run run = Run.of(all.toArray(String[]::new));
    assertTrue(run.code() == ExitCode.GOOD || run.code() == ExitCode.FINDINGS, run.err());
    return run;
  }

  /** Nothing in it commands a terminal. */
  private static void text(String text) {
    assertTrue(
        text.chars().allMatch(c -> c == '\n' || c >= ' ' && c != 0x7F && (c < 0x80 || c > 0x9F)),
        text);
  }

  /** No cell that a spreadsheet takes for a formula, and as many cells in each row. */
  private static void table(String csv) throws IOException {
    try (CSVParser parser = CSVParser.parse(csv, CSVFormat.RFC4180)) {
      List<CSVRecord> rows = parser.getRecords();
      for (CSVRecord row : rows) {
        assertEquals(rows.get(0).size(), row.size(), csv);
        for (String cell : row) {
          boolean formula = !cell.isEmpty() && "=+-@\t\r".indexOf(cell.charAt(0)) >= 0;
          assertTrue(!formula || NUMBER.matcher(cell).matches(), cell);
        }
      }
    }
  }

  /** No tag outside of code, and no link that runs something. */
  private static void markdown(String page) {
    text(page);
    String plain =
        page.replaceAll("(?s)```.*?```", "").replaceAll("\\\\.", "").replaceAll("`[^`\n]*`", "");
    assertFalse(plain.matches("(?s).*<(script|img|b|i|title|/title|#assign)\\b.*"), plain);
    assertFalse(plain.contains("](javascript"), plain);
  }

  /** The same tags as for a harmless loop. */
  private static void pages(Path hostile, Path harmless) {
    String page = run("survey", hostile.toString(), "--package", "DIP-8", "--format", "html");
    String other = run("survey", harmless.toString(), "--package", "DIP-8", "--format", "html");
    assertEquals(tags(other), tags(page));
    assertTrue(page.contains("HACKED"), "the name is in the page, as text");
  }

  private static List<String> tags(String page) {
    return TAG.matcher(page).results().map(each -> each.group(1)).toList();
  }

  /** What a loop is printed as is read as the same texts again. */
  private void again(Path loop, String name, String unit) throws IOException {
    text(run("loop", loop.toString()));
    Path filled = temp.resolve("filled.yaml");
    run("loop", loop.toString(), "--explain", "-o", filled.toString());
    Loop read = LoopReader.read(filled);
    assertEquals(name, read.name());
    assertEquals(unit, read.sensor().scale().unit());
  }

  private void replays(Path loop, String name) throws Exception {
    Path trace = temp.resolve("trace \u001b[2J<b>.csv");
    Files.writeString(
        trace,
        "time_ms,\"=HACKED()<script>|\u001b[31m\"\n0,1\n1000,2\n2000,90\n3000,95\n4000,96\n5000,97\n6000,1\n");
    Path plot = temp.resolve("plot.svg");
    Path frames = temp.resolve("frames.svg");
    reports(name, List.of("replay", loop.toString(), trace.toString()));
    run(
        "replay",
        loop.toString(),
        trace.toString(),
        "--plot",
        plot.toString(),
        "--frames",
        frames.toString());
    picture(plot);
    picture(frames);
    Run wrong = Run.of("replay", loop.toString(), trace.toString(), "--column", "\u001b[2Jnone");
    assertEquals(ExitCode.BAD_INPUT, wrong.code());
    text(wrong.err());
  }

  /** Well-formed, and nothing in it that runs. */
  private static void picture(Path file) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    String svg = Files.readString(file);
    NodeList all =
        factory
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(svg)))
            .getElementsByTagName("*");
    for (int i = 0; i < all.getLength(); i++) {
      Element element = (Element) all.item(i);
      assertFalse(List.of("script", "img", "b", "i").contains(element.getTagName()), svg);
      for (int k = 0; k < element.getAttributes().getLength(); k++) {
        assertFalse(element.getAttributes().item(k).getNodeName().startsWith("on"), svg);
      }
    }
  }

  private static void build(Path folder, String machine) {
    Tool.require("make", "cc", compiler(machine) + "gcc");
    Tool.output(folder, "make");
    Tool.output(folder, "make", "check");
  }

  private static String compiler(String machine) {
    return machine.equals("avr") ? "avr-" : "arm-none-eabi-";
  }

  /** The program has names as bad as those of the loop. */
  private void audits(Path folder, Path loop, String name, String machine) throws Exception {
    Path program = folder.resolve("build/firmware.elf");
    for (String symbol : List.of("report_reading", "average_add", "judge", "pace_wait", "main")) {
      Tool.output(
          folder,
          compiler(machine) + "objcopy",
          "--redefine-sym",
          symbol + "==HACKED(\",\";<script>|`\u001b[2J_" + symbol,
          program.toString());
    }
    List<String> audit = List.of("audit", folder.toString(), "--loop", loop.toString());
    reports(name, audit);
    text(withMore(audit, "--brief").out());
    Path picture = temp.resolve("memory.svg");
    Path baseline = temp.resolve("kept.baseline");
    withMore(audit, "--picture", picture.toString(), "--accept", "--baseline", baseline.toString());
    picture(picture);
    text(Files.readString(baseline).replace('\t', ' '));
    String sheet = withMore(audit, "--format", "csv").out();
    assertTrue(sheet.contains("HACKED("), "a bad name is in the sheet, as text");
    withMore(audit, "--baseline", baseline.toString());
  }
}
