package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

class CostTableTest {

  @Test
  void row_saysTheSameWhenWrittenAgain() {
    String fields =
        "C average_add 54+10*ask+-2*bit 4 __mulhi3@2 other>0 average_window\tr steps 7 0"
            + "\td first 3 0 average_add\tZ average_window 16 0\tE kept 2 0\t+__do_clear_bss";
    assertEquals(fields, CostRow.parse("average[]", fields).text());
  }

  @Test
  void rowOfAWideCore_saysWhereThingsGoAndWhatTheLinkerShortens() {
    String fields =
        "C ask 40/2+16*ask 12 put@12~8,24*ask,24+ask put@16 other>0~32+ask window~4\tZ window 9/4 0"
            + "\tC __modsi3 0/__divsi3@132 0 __udivsi3@0\tr steps 6/2 0";
    assertEquals(fields, CostRow.parse("ask[]", fields).text());
  }

  @Test
  void rowThatPointsToAnother_isThatOther() {
    SortedMap<String, String> rows = new TreeMap<>();
    rows.put("a[x=1]", "C a 5 6");
    rows.put("a[x=2]", "=a[x=1]");
    CostTable table = new CostTable(Tables.text(rows));
    assertEquals("C a 5 6", table.row("a[x=2]").orElseThrow().text());
  }

  @Test
  void keys_areThoseOfOneModuleOnly() {
    SortedMap<String, String> rows = new TreeMap<>();
    for (String key : List.of("ask[]", "bus_polled[]", "bus[a=1]", "bus[a=2]", "pins[]")) {
      rows.put(key, "C a 5 6");
    }
    CostTable table = new CostTable(Tables.text(rows));
    assertEquals(List.of("bus[a=1]", "bus[a=2]"), table.keys("bus["));
    assertEquals(List.of(), table.keys("zoo["));
  }

  @Test
  void otherFormat_isRefused() {
    assertThrows(IllegalStateException.class, () -> new CostTable("# something else\n"));
  }
}
