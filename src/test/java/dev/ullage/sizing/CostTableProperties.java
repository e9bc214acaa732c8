package dev.ullage.sizing;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.Size;
import net.jqwik.api.constraints.StringLength;

class CostTableProperties {

  @Property(tries = 300)
  void everyKeyIsFound_andNoOther(
      @ForAll @Size(max = 40) List<@AlphaChars @StringLength(min = 1, max = 4) String> keys,
      @ForAll @AlphaChars @StringLength(min = 1, max = 5) String other) {
    SortedMap<String, String> rows = new TreeMap<>();
    keys.forEach(key -> rows.put(key, "value of " + key));
    CostTable table = new CostTable(Tables.text(rows));
    for (String key : keys) {
      assertEquals(Optional.of("value of " + key), table.fields(key));
    }
    assertEquals(Optional.ofNullable(rows.get(other)), table.fields(other));
    assertEquals(List.copyOf(rows.keySet()), table.keys(""));
  }
}
