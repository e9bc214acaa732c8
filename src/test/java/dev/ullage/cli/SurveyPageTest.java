package dev.ullage.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import dev.ullage.loop.Loop;
import dev.ullage.loop.LoopReader;
import dev.ullage.proof.Ledger;
import dev.ullage.report.Assessment;
import dev.ullage.report.Survey;
import dev.ullage.report.SurveyPage;
import dev.ullage.sizing.CostTables;
import dev.ullage.target.Catalogue;
import dev.ullage.testing.Browser;
import dev.ullage.testing.BrowserPage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The page of a survey, in a real browser: some parts of every kind for what can be done with it,
 * and the whole catalogue for its speed.
 *
 * <p>With {@code -Dullage.pictures=FOLDER} it leaves pictures of what it saw.
 */
class SurveyPageTest {
  private static final String SAMPLE = "generated-samples/cold-store/cold-store.yaml";
  private static final String SHOWN = "#table tbody tr:not([hidden])";

  @TempDir static Path folder;

  private static Browser browser;
  private static Path file;
  private BrowserPage page;

  @BeforeAll
  static void writePage() throws IOException {
    browser = Browser.start();
    file = folder.resolve("report.html");
    Run run =
        Run.of("survey", SAMPLE, "--package", "DIP", "--format", "html", "-o", file.toString());
    assertEquals(new Run(ExitCode.GOOD, "", ""), run);
  }

  @AfterAll
  static void closeBrowser() throws IOException {
    if (browser != null) {
      browser.close();
    }
  }

  @BeforeEach
  void open() {
    page = browser.open(file);
    page.screen(1366, 900);
    page.media("screen", "light");
  }

  @AfterEach
  void nothingIsComplainedOf() {
    List<String> complaints = page.complaints();
    page.close();
    assertEquals(List.of(), complaints);
  }

  private int count(String selector) {
    return page.run("document.querySelectorAll(\"" + selector + "\").length").asInt();
  }

  private String text(String selector) {
    return page.run("document.querySelector(\"" + selector + "\").textContent").asText();
  }

  private List<String> texts(String selector) {
    List<String> texts = new ArrayList<>();
    page.run("[...document.querySelectorAll(\"" + selector + "\")].map(e => e.textContent)")
        .forEach(each -> texts.add(each.asText()));
    return texts;
  }

  private void picture(String name) throws IOException {
    String where = System.getProperty("ullage.pictures", "");
    if (!where.isEmpty()) {
      Files.write(Path.of(where, name + ".png"), page.picture());
    }
  }

  @Test
  void everyPart_hasARow() throws IOException {
    picture("parts-light");
    long all =
        Catalogue.load().parts().stream()
            .filter(part -> part.packageNames().stream().anyMatch(name -> name.contains("DIP")))
            .count();
    assertEquals(all, count(SHOWN));
    assertEquals("All " + all + " parts.", text("#count"));
    page.media("screen", "dark");
    picture("parts-dark");
  }

  @Test
  void search_leavesWhatMatches() {
    page.click("#search");
    page.type("ATtiny861 pdip-20 measured");
    assertEquals(
        List.of("ATtiny261", "ATtiny261A", "ATtiny461", "ATtiny461A", "ATtiny861", "ATtiny861A"),
        texts(SHOWN + " .name").stream().sorted().toList());
    page.type(" nothing");
    assertEquals(0, count(SHOWN));
    assertFalse(page.run("document.getElementById('none').hidden").asBoolean());
    // Not by its place: the button may still be on its way there.
    page.run("document.getElementById('reset').click()");
    assertEquals(count("#table tbody tr"), count(SHOWN));
  }

  @Test
  void verdictBoxes_takePartsAway() {
    int all = count(SHOWN);
    int lacking = count("#table .verdict.lacks");
    assertTrue(lacking > 0 && lacking < all);
    page.click("[name=verdict][value=lacks]");
    assertEquals(all - lacking, count(SHOWN));
    assertEquals(0, count(SHOWN + " .verdict.lacks"));
  }

  @Test
  void columnFilter_isAppliedToItsColumn() throws IOException {
    page.click("#more summary");
    picture("filters");
    page.run(
        "(() => { const select = [...document.querySelectorAll('#columns label')]"
            + ".find(l => l.textContent.startsWith('Bus driver')).querySelector('select');"
            + " select.value = 'polled';"
            + " select.dispatchEvent(new Event('input', {bubbles: true})); })()");
    assertEquals(List.of("polled"), texts(SHOWN + " .c-driver").stream().distinct().toList());
    page.run(
        "(() => { const field = [...document.querySelectorAll('#columns label')]"
            + ".find(l => l.textContent.startsWith('RAM left')).querySelector('input');"
            + " field.focus(); })()");
    page.type("5000");
    List<String> left = texts(SHOWN + " .c-ramLeft");
    assertFalse(left.isEmpty());
    left.forEach(bytes -> assertTrue(Integer.parseInt(bytes) >= 5000, bytes));
  }

  @Test
  void everyColumn_sortsBothWays() {
    for (String key :
        List.of(
            "name",
            "status",
            "flashNeed",
            "flashLeft",
            "ramNeed",
            "ramLeft",
            "driver",
            "limiting",
            "core",
            "packages",
            "grade")) {
      String head = "thead .c-" + key;
      page.click(head + " button");
      String first = page.run("document.querySelector('" + head + "').ariaSort").asText();
      String top = text(SHOWN + " .c-" + key);
      page.click(head + " button");
      String second = page.run("document.querySelector('" + head + "').ariaSort").asText();
      assertEquals(
          List.of("ascending", "descending"), List.of(first, second).stream().sorted().toList());
      assertFalse(top.equals(text(SHOWN + " .c-" + key)), key);
    }
  }

  @Test
  void sortByFlashLeft_isByNumber() {
    page.click("thead .c-flashLeft button");
    List<Integer> left =
        texts(SHOWN + " .c-flashLeft").stream()
            .filter(text -> text.matches("[0-9]+"))
            .map(Integer::valueOf)
            .toList();
    assertTrue(left.size() > 40, left.size() + " numbers");
    assertEquals(left.stream().sorted(java.util.Comparator.reverseOrder()).toList(), left);
  }

  @Test
  void detail_addsUpToTheBudget() throws IOException {
    page.run(
        "[...document.querySelectorAll('.name')].find(b => b.textContent === 'ATtiny85').id = 'it'");
    page.click("#it");
    assertEquals("ATtiny85", text("#detail-title"));
    picture("detail-light");
    Run budget = Run.of("budget", SAMPLE, "-t", "attiny85", "--format", "csv");
    long modules = budget.out().lines().filter(line -> line.startsWith("module,")).count();
    page.run("document.querySelector('dialog .list').id = 'modules'");
    assertEquals(modules + 1, count("#modules tbody tr"));
    int sum = 0;
    for (String bytes : texts("#modules tbody tr:not(.sum) td:nth-child(2)")) {
      sum += Integer.parseInt(bytes);
    }
    assertEquals(text("#modules .sum td:nth-child(2)"), Integer.toString(sum));
    assertTrue(text("dialog").contains("averaging window"));
    assertTrue(text("dialog").contains("clock_rise"));
    page.media("screen", "dark");
    picture("detail-dark");
    page.press("Escape");
    assertFalse(page.run("document.getElementById('detail').open").asBoolean());
    assertEquals("it", page.run("document.activeElement.id").asText());
  }

  @Test
  void listedPart_saysThatNoMoreIsKnown() throws IOException {
    // No part in a DIP is without a port.
    Path report = folder.resolve("listed.html");
    Run.of("survey", SAMPLE, "--package=QFN-24", "--format=html", "-o", report.toString());
    page.close();
    page = browser.open(report);
    page.run("document.querySelector('tr:has(.verdict.listed) .name').id = 'it'");
    page.click("#it");
    assertTrue(text("dialog").contains("there is no port for it yet"), text("dialog"));
    picture("detail-listed");
  }

  @Test
  void comparison_takesFourAtMost() throws IOException {
    int already = count("tbody [type=checkbox]:checked");
    for (int i = 1; i <= 6 - already; i++) {
      page.run(
          "(() => { const box = document.querySelector('tr:nth-child("
              + 9 * i
              + ") [type=checkbox]:not(:checked)'); if (box && !box.disabled) box.click(); })()");
    }
    assertEquals(4, count("tbody [type=checkbox]:checked"));
    assertEquals(count("#table tbody tr") - 4, count("#table tbody [type=checkbox]:disabled"));
    page.click("#tab-compare");
    assertEquals(4, count(".comparison thead th"));
    picture("compare-light");
    page.click(".chosen button");
    assertEquals(3, count(".comparison thead th"));
    page.click("#tab-plots");
    picture("plots-light");
    page.media("screen", "dark");
    picture("plots-dark");
    page.run("scrollTo(0, 1500)");
    picture("plots-dark-below");
    assertEquals(6, count("#plots svg"));
    assertTrue(count("#plots .curve") >= 8);
  }

  @Test
  void keyboard_reachesEverything() {
    page.run("document.getElementById('tab-parts').focus()");
    page.press("ArrowRight");
    assertEquals("tab-compare", page.run("document.activeElement.id").asText());
    assertFalse(page.run("document.getElementById('compare').hidden").asBoolean());
    page.press("Home");
    page.press("Tab");
    assertEquals("search", page.run("document.activeElement.id").asText());
    page.run("document.querySelector('thead .c-name button').focus()");
    page.press("Enter");
    assertEquals("ascending", page.run("document.querySelector('.c-name').ariaSort").asText());
    page.run("document.querySelector('tbody [type=checkbox]:not(:checked)').focus()");
    int before = count("tbody [type=checkbox]:checked");
    page.press(" ");
    assertEquals(before + 1, count("tbody [type=checkbox]:checked"));
    page.press("Tab");
    page.press("Enter");
    assertTrue(page.run("document.getElementById('detail').open").asBoolean());
    for (int i = 0; i < 8; i++) {
      page.press("Tab");
      assertTrue(
          page.run(
                  "document.activeElement === document.body"
                      + " || !!document.activeElement.closest('dialog')")
              .asBoolean(),
          "focus left the dialog");
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"parts", "compare", "plots"})
  void everyControl_hasAName(String view) {
    page.click("#tab-" + view);
    page.run("document.getElementById('more').open = true");
    List<String> roles =
        List.of(
            "button",
            "checkbox",
            "textbox",
            "searchbox",
            "combobox",
            "tab",
            "spinbutton",
            "table",
            "columnheader",
            "rowheader",
            "region",
            "image",
            "dialog",
            "tabpanel");
    int named = 0;
    for (JsonNode node : page.accessibility()) {
      if (!node.path("ignored").asBoolean() && roles.contains(node.at("/role/value").asText())) {
        assertFalse(node.at("/name/value").asText().isBlank(), node.toString());
        named++;
      }
    }
    assertTrue(named > 5, named + " controls");
  }

  @ParameterizedTest
  @ValueSource(ints = {360, 768, 1366})
  void noView_isWiderThanTheScreen(int width) throws IOException {
    page.screen(width, 800);
    for (String view : List.of("parts", "compare", "plots")) {
      page.click("#tab-" + view);
      picture(view + "-" + width);
      int wide = page.run("document.documentElement.scrollWidth").asInt();
      assertTrue(wide <= width, view + " is " + wide + " wide");
    }
    page.click("#tab-parts");
    page.click("tbody .name");
    picture("detail-" + width);
    int inside = page.run("detail.scrollWidth - detail.clientWidth").asInt();
    assertTrue(inside <= 0, "detail is " + inside + " too wide");
  }

  /** The texts of a loop that may be anything are its name and its unit; pins must be names. */
  @Test
  void markup_isShownAndDoesNothing(@TempDir Path other) throws IOException {
    String name = "<img src=x onerror=alert(1)></script><script>alert(2)</script>";
    Path loop = other.resolve("hostile.yaml");
    Files.writeString(
        loop,
        """
        loop: "%s"
        sensor: {bus: i2c, address: 0x48, scale: {unit: "</script><b>"}}
        alarm: {when: above, threshold: 8}
        """
            .formatted(name));
    Path report = other.resolve("report.html");
    assertTrue(
        Run.of("survey", loop.toString(), "--core=avr25", "--format=html", "-o", report.toString())
            .isGood());
    try (BrowserPage hostile = browser.open(report)) {
      assertEquals(name, hostile.run("document.querySelector('h1').textContent").asText());
      hostile.run("document.querySelector('tbody .name').click()");
      String facts = hostile.run("document.querySelector('.facts').textContent").asText();
      assertTrue(facts.contains("above 8 </script><b>"), facts);
      String whole = hostile.run("document.querySelector('pre').textContent").asText();
      assertTrue(whole.contains("</script><b>") && whole.contains(name), whole);
      assertEquals(
          0, hostile.run("document.querySelectorAll('img, body b:not(footer b)').length").asInt());
      assertEquals(2, hostile.run("document.scripts.length").asInt());
      assertEquals(List.of(), hostile.complaints());
    }
  }

  /**
   * More than 500 parts, each with all its figures. How long it takes is published, not tested: it
   * depends on what else the machine does.
   */
  @Test
  void manyParts_areSearchedAndSorted() throws IOException {
    Loop loop = LoopReader.read(Path.of(SAMPLE));
    CostTables costs = CostTables.packed();
    Survey once = Survey.of(loop, Catalogue.load().targets(), costs);
    int copies = 500 / once.rows().size() + 1;
    List<Assessment> rows =
        Collections.nCopies(copies, once.rows()).stream().flatMap(List::stream).toList();
    Survey many = new Survey(once.loop(), rows, once.measuredWith(), 0);
    SurveyPage page = new SurveyPage(loop, many, SurveyPage.of(loop, once, costs).curves());
    Path large = Files.writeString(folder.resolve("large.html"), page.html());
    assertTrue(Files.size(large) < 2_000_000, Files.size(large) + " bytes");
    try (BrowserPage opened = browser.open(large)) {
      opened.screen(1366, 900);
      JsonNode times = opened.run(Files.readString(Path.of("src/test/resources/page-times.js")));
      assertEquals(3 * copies, times.get("found").asInt(), "the family of the ATtiny85");
      for (String what : List.of("search", "sort", "open a part")) {
        assertTrue(times.get(what).size() >= 5);
        times.get(what).forEach(ms -> Ledger.row("page", what, rows.size(), ms.asText()));
      }
      assertEquals(List.of(), opened.complaints());
    }
  }

  /** Every text in every view, as the browser computed its colours: WCAG 2.2, 1.4.3. */
  @ParameterizedTest
  @ValueSource(strings = {"light", "dark"})
  void text_hasContrastEnough(String scheme) throws IOException {
    page.media("screen", scheme);
    page.run("document.querySelectorAll('details').forEach(each => each.open = true)");
    String script = Files.readString(Path.of("src/test/resources/contrast.js"));
    for (String view : List.of("parts", "compare", "plots")) {
      page.click("#tab-" + view);
      page.run("document.querySelectorAll('details').forEach(each => each.open = true)");
      checkContrast(page.run(script), view);
    }
    page.click("#tab-parts");
    page.click("tbody .name");
    checkContrast(page.run(script), "detail");
  }

  private static void checkContrast(JsonNode found, String view) {
    assertTrue(found.get("texts").asInt() > 20, view + ": " + found);
    assertEquals("[]", found.get("faint").toString(), view);
  }

  @Test
  void paper_hasTheRowsAndNoControls() throws IOException {
    page.media("print", "light");
    assertEquals("none", page.run("getComputedStyle(filters).display").asText());
    assertEquals("table-header-group", page.run("getComputedStyle(table.tHead).display").asText());
    page.media("", "light");
    byte[] pdf = page.paper();
    assertTrue(new String(pdf, 0, 5, java.nio.charset.StandardCharsets.US_ASCII).equals("%PDF-"));
    String where = System.getProperty("ullage.pictures", "");
    if (!where.isEmpty()) {
      Files.write(Path.of(where, "parts.pdf"), pdf);
      page.click("#tab-plots");
      Files.write(Path.of(where, "plots.pdf"), page.paper());
      page.click("#tab-parts");
      page.click("tbody .name");
      Files.write(Path.of(where, "detail.pdf"), page.paper());
    }
  }
}
