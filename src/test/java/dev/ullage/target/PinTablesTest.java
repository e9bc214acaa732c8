package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Holds pin numbers against the pin tables of data sheets: STM32F030 (DS9773 rev 4), STM32F103x8/B
 * (DS5319 rev 19), STM32G031 (DS12992 rev 2), CH32V003 (V1.8), CH32V103 (V1.2), CH32V203 (V3.0).
 */
class PinTablesTest {
  /** Where the oscillator's pins are ports, too, which the tables say in a note. */
  private static final Map<String, String> PORTS = Map.of("OSC_IN", "PD0", "OSC_OUT", "PD1");

  private static final Map<String, Part> PARTS = new HashMap<>();

  static {
    Catalogue.load().parts().forEach(part -> PARTS.put(part.name(), part));
  }

  /** The names at each number of {@code stm32f030f4 TSSOP-20}, by that text. */
  private static Map<String, Map<Integer, Set<String>>> tables() throws IOException {
    Map<String, Map<Integer, Set<String>>> tables = new LinkedHashMap<>();
    String[] columns = {};
    for (String line : text().lines().toList()) {
      if (line.startsWith("columns ")) {
        columns = line.substring("columns ".length()).split(" \\| ");
      } else if (!line.isEmpty() && !line.startsWith("#") && !line.startsWith("sheet ")) {
        String[] row = line.split(" ");
        for (int column = 0; column < columns.length; column++) {
          if (!row[column + 1].equals("-")) {
            Set<String> names =
                tables
                    .computeIfAbsent(columns[column], key -> new HashMap<>())
                    .computeIfAbsent(Integer.parseInt(row[column + 1]), key -> new HashSet<>());
            names.add(row[0].equals("-") ? "NC" : row[0]);
            names.add(PORTS.getOrDefault(row[0], row[0]));
          }
        }
      }
    }
    return tables;
  }

  private static String text() throws IOException {
    try (InputStream in = PinTablesTest.class.getResourceAsStream("pin-tables.txt")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void pinNumbers_areThoseOfTheDataSheets() throws IOException {
    List<String> differ = new ArrayList<>();
    int pins = 0;
    for (Map.Entry<String, Map<Integer, Set<String>>> table : tables().entrySet()) {
      String[] partAndPackage = table.getKey().split(" ");
      Part part = PARTS.get(partAndPackage[0]);
      assertTrue(part != null, partAndPackage[0] + " is in the catalogue");
      if (part instanceof Target target) {
        List<String> drawing = pins(target, partAndPackage[1]);
        assertEquals(drawing.size(), table.getValue().size(), table.getKey());
        for (int number = 1; number <= drawing.size(); number++) {
          pins++;
          String pin = drawing.get(number - 1);
          Set<String> names = table.getValue().get(number);
          if (!names.contains(pin)) {
            differ.add(table.getKey() + " pin " + number + ": " + pin + " here, there " + names);
          }
        }
      }
    }
    assertEquals(List.of(), differ);
    assertTrue(pins >= 780, pins + " pins");
  }

  private static List<String> pins(Target target, String packageName) {
    return target.packages().stream()
        .filter(drawing -> drawing.name().equals(packageName))
        .map(Package::pins)
        .findFirst()
        .orElse(List.of());
  }
}
