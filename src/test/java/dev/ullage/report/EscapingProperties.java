package dev.ullage.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.ObjectMapper;
import dev.ullage.input.Printable;
import java.io.IOException;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;

/** Whatever a user's file holds, it stays text in the place that it is printed in. */
class EscapingProperties {

  @Provide
  Arbitrary<String> texts() {
    Arbitrary<String> nasty =
        Arbitraries.strings()
            .withChars("=+-@\t\r\n\",;'|`*_<>&\\[]#\u001b\u007f\u009b\u202e x0")
            .ofMaxLength(12);
    return Arbitraries.oneOf(nasty, Arbitraries.strings().ofMaxLength(20));
  }

  @Property
  void aSpreadsheetReadsTheSameTextAndNoFormula(@ForAll("texts") String text) throws IOException {
    Table table =
        new Table(
            List.of(Table.Column.left("a"), Table.Column.left("b")), List.of(List.of(text, "end")));
    try (CSVParser parser = CSVParser.parse(Csv.of(table), CSVFormat.RFC4180)) {
      List<org.apache.commons.csv.CSVRecord> records = parser.getRecords();
      assertEquals(2, records.size());
      String read = records.get(1).get(0);
      assertTrue(read.equals(text) || read.equals("'" + text), read);
      assertFalse(read.matches("(?s)[=+@\t\r].*|-.*[^0-9.].*|-"), read);
      assertEquals("end", records.get(1).get(1));
    }
  }

  @Property
  void aTerminalIsNeverCommanded(@ForAll("texts") String text) {
    String shown = Printable.of(text);
    assertTrue(shown.codePoints().noneMatch(Character::isISOControl), shown);
    assertTrue(shown.chars().noneMatch(c -> c == 0x202e), shown);
    assertEquals(shown, Printable.of(shown));
  }

  @Property
  void aMarkdownRowKeepsItsCells(@ForAll("texts") String text) {
    Table table = new Table(List.of(Table.Column.left("a")), List.of(List.of(text)));
    List<String> lines = Markdown.table(table).lines().toList();
    assertEquals(3, lines.size());
    String cell = lines.get(2).substring(2, lines.get(2).length() - 2);
    assertFalse(cell.replaceAll("\\\\.", "").matches(".*[|<>`].*"), cell);
  }

  @Property
  void jsonIsReadBackAndIsAscii(@ForAll("texts") String text) throws IOException {
    String json = Json.object(out -> out.writeStringField("text", text));
    assertTrue(json.chars().allMatch(c -> c == '\n' || c >= ' ' && c < 0x7f), json);
    assertEquals(text, new ObjectMapper().readTree(json).get("text").asText());
  }
}
