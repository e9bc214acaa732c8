package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledIfSystemProperty;

class FiguresTest {

  @Test
  void programs_areSummedUpByCore() {
    List<List<String>> rows =
        List.of(
            // Exact; 10 bytes too high in 1000; outside its interval; RAM wrong and stack low.
            Ledger.cells("random", "avr5", "a on x", 800, 796, 800, 804, 0, 0),
            Ledger.cells("random", "avr5", "b on x", 1_000, 990, 1_010, 1_030, 0, 0),
            Ledger.cells("random", "avr5", "c on y", 500, 501, 502, 503, 0, 7),
            Ledger.cells("random", "avr25", "d on z", 400, 398, 400, 402, 3, -2));

    assertEquals(
        List.of(
            List.of(
                "random", "avr25", "1", "0.00", "0.00", "0.00", "0", "1.00", "0", "1", "1", "1"),
            List.of(
                "random", "avr5", "3", "0.40", "1.00", "1.00", "10", "1.00", "1", "0", "1", "0")),
        Figures.programs(rows).rows());
  }

  @Test
  void modules_areSummedUpOverAllCores() {
    List<List<String>> rows =
        List.of(
            Ledger.cells("avr5", "judge", 100, 4, 0),
            Ledger.cells("avr25", "judge", 90, 0, 1),
            Ledger.cells("avr25", "judge", 80, -8, 0));

    assertEquals(
        List.of(List.of("judge", "3", "90", "33.33", "8", "10.00", "1")),
        Figures.modules(rows).rows());
  }

  @Test
  void simulatedCases_areSummedUpByPartAndDriver() {
    List<List<String>> rows =
        List.of(
            Ledger.cells("bilge", "attiny84", "bitbang", "cold, then warm", 30, 30),
            Ledger.cells("bilge", "attiny84", "bitbang", "data held", 28, 31),
            Ledger.cells("bilge", "atmega8", "polled", "data held", 33, 31));

    assertEquals(
        List.of(
            List.of("atmega8", "polled", "1", "-2", "-2", "1"),
            List.of("attiny84", "bitbang", "2", "0", "3", "0")),
        Figures.simulated(rows).rows());
  }

  /** It is as the writer writes it, holds every table, and what it says is what is promised. */
  @Test
  @DisabledIfSystemProperty(
      named = "ullage.figures",
      matches = "write",
      disabledReason = "They are about to be written.")
  void publishedFigures_areInTheFormOfTheWriter() throws IOException {
    String figures = FiguresPage.on(Files.readString(FiguresPage.FILE));
    List<FigureTable> published = FigureTable.parse(figures);

    assertEquals(FiguresPage.markdown(published), figures);
    List<FigureTable> measured = published.subList(0, published.size() - 1);
    List<FigureTable> empty = Figures.all(topic -> List.of());
    assertEquals(
        empty.stream().map(FigureTable::title).toList(),
        measured.stream().map(FigureTable::title).toList());
    assertEquals(
        empty.stream().map(FigureTable::header).toList(),
        measured.stream().map(FigureTable::header).toList());
    published.forEach(table -> assertFalse(table.rows().isEmpty(), table.title()));
    for (List<String> core : published.get(0).rows()) {
      assertTrue(Double.parseDouble(core.get(5)) <= 2, core::toString);
      assertEquals("0", core.get(8), core::toString);
    }
  }

  @Test
  void textThatTheWriterDidNotWrite_isRefused() {
    assertThrows(
        IllegalArgumentException.class, () -> FigureTable.parse("### Typed by hand\n\n12 bytes\n"));
    assertThrows(IllegalArgumentException.class, () -> FiguresPage.on("# No figures\n"));
  }

  @Test
  void otherFigures_takeThePlaceOfThoseOnThePage() {
    String page = "before\n<!-- figures: begin -->\nold\n<!-- figures: end -->\nafter\n";

    assertEquals(page.replace("old", "new"), FiguresPage.with(page, "new\n"));
  }
}
