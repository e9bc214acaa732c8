package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Holds the limits of parts with named sources against what others say of the same parts. */
class SourcedPartsTest {
  private static final List<Part> PARTS =
      Catalogue.load().parts().stream().filter(part -> !part.sources().isEmpty()).toList();

  private static final Path SYMBOLS = Path.of("/usr/share/kicad/symbols");

  /**
   * Libraries drawn by hand. Those of STM32 are left out, for they are made from a data base of the
   * maker, and so are those whose symbols have no memory in their words.
   */
  private static final List<String> LIBRARIES =
      List.of("MCU_Microchip_SAMD", "MCU_NXP_LPC", "MCU_SiliconLabs");

  private static final Pattern SYMBOL =
      Pattern.compile(
          "^  \\(symbol \"([^\"]+)\"(?:(?!^  \\(symbol ).)*?\"ki_description\" \"([^\"]*)\"",
          Pattern.DOTALL | Pattern.MULTILINE);

  private static final Pattern MEMORIES =
      Pattern.compile("(\\d+) ?[kK]B? [Ff]lash.*?(\\d+) ?[kK]B? +S?RAM");

  /** The symbol says 4 KiB of RAM; RIOT, libopencm3 and the maker's pack say 8 KiB. */
  private static final Set<String> WRONG_SYMBOLS =
      Set.of("efm32hg108f64", "efm32hg308f32", "efm32hg308f64");

  /** The part as the source names it, and the flash in KiB that the order code stands for. */
  private record OrderCode(Pattern pattern, Map<String, Integer> kibibytes) {
    Optional<Integer> flash(String title) {
      Matcher matcher = pattern.matcher(title);
      return matcher.matches()
          ? Optional.of(kibibytes.getOrDefault(matcher.group(1), -1))
          : Optional.empty();
    }
  }

  /** As the ordering information of the data sheets has them; from memory, no copy at hand. */
  private static final Map<String, Integer> LETTERS =
      Map.of("3", 8, "4", 16, "6", 32, "8", 64, "B", 128, "Z", 192, "C", 256, "E", 512);

  private static final List<OrderCode> ORDER_CODES =
      List.of(
          new OrderCode(Pattern.compile("STM32.{4}\\w(\\w)"), LETTERS),
          new OrderCode(Pattern.compile("GD32VF103\\w(\\w)\\w\\d"), LETTERS),
          new OrderCode(Pattern.compile("CH32V[0-9]{3}\\w(\\w)\\w\\d"), LETTERS),
          new OrderCode(
              Pattern.compile("ATSAMD\\d\\d\\w(\\d\\d)\\w"),
              Map.of("13", 8, "14", 16, "15", 32, "16", 64, "17", 128, "18", 256)),
          new OrderCode(Pattern.compile("EFM32[ZH]G\\d{3}F(\\d+)"), powers()),
          new OrderCode(
              Pattern.compile("nRF51[48]22_xx(\\w\\w)"), Map.of("AA", 256, "AB", 128, "AC", 256)));

  private static Map<String, Integer> powers() {
    Map<String, Integer> powers = new HashMap<>();
    for (int size = 4; size <= 128; size *= 2) {
      powers.put("" + size, size);
    }
    return powers;
  }

  @Test
  void catalogue_hasThreeHundredPartsAndMore() {
    assertTrue(Catalogue.load().parts().size() >= 300, PARTS.size() + " with sources");
  }

  /**
   * The letters or digits of an order code that stand for the flash, by the makers' own schemes.
   */
  @Test
  void flash_isWhatTheOrderCodeStandsFor() {
    List<String> wrong = new ArrayList<>();
    int checked = 0;
    for (Part part : PARTS) {
      for (OrderCode code : ORDER_CODES) {
        Optional<Integer> expected = code.flash(part.title());
        if (expected.isPresent()) {
          checked++;
          if (part.flash().orElse(0) != expected.get() * 1024) {
            wrong.add(part.name() + " has " + part.flash() + ", code says " + expected.get() + "K");
          }
        }
      }
    }
    assertEquals(List.of(), wrong);
    assertTrue(checked >= 400, checked + " order codes read");
  }

  /**
   * Against the symbols of KiCad, drawn by hand from data sheets (Debian package kicad-symbols; the
   * lineage is no other's than the word {@code kicad} in the catalogue).
   */
  @Test
  void memories_areThoseOfTheSymbols() throws IOException {
    Tool.requireFile(SYMBOLS, "kicad-symbols");
    Set<String> checked = new TreeSet<>();
    Set<String> differ = new TreeSet<>();
    for (String library : LIBRARIES) {
      String text = Files.readString(SYMBOLS.resolve(library + ".kicad_sym"));
      for (MatchResult symbol : SYMBOL.matcher(text).results().toList()) {
        Optional<Part> part = partOf(symbol.group(1));
        Matcher memories = MEMORIES.matcher(symbol.group(2));
        if (part.isPresent() && memories.find()) {
          checked.add(part.get().name());
          if (kibibytes(memories.group(1)) != part.get().flash().orElse(0)
              || kibibytes(memories.group(2)) != part.get().ram()) {
            differ.add(part.get().name());
          }
        }
      }
    }
    assertEquals(WRONG_SYMBOLS, differ);
    assertTrue(checked.size() >= 40, checked.size() + " parts have a symbol: " + checked);
  }

  private static int kibibytes(String text) {
    return Integer.parseInt(text) * 1024;
  }

  /**
   * {@code ATSAMD21E15A-A} is an {@code ATSAMD21E15A}, and an {@code LPC812M101JD20} an {@code
   * LPC812M101}.
   */
  private static Optional<Part> partOf(String symbol) {
    return PARTS.stream()
        .filter(part -> symbol.startsWith(part.title()))
        .filter(part -> symbol.substring(part.title().length()).matches("|[-A-Z].*"))
        .findFirst();
  }

  @Test
  void everySource_isExplained() throws IOException {
    String explained = Files.readString(Path.of("targets/SOURCES.md"));
    Set<String> words =
        PARTS.stream()
            .flatMap(part -> part.sources().values().stream())
            .flatMap(sources -> List.of(sources.split(" ")).stream())
            .collect(Collectors.toCollection(TreeSet::new));
    for (String word : words) {
      assertTrue(explained.contains("\n| `" + word + "` | "), word);
    }
    assertTrue(words.size() > 5, words.toString());
  }

  /** Packages are named with the number of their pins. */
  @Test
  void packages_areNamedAsEverywhere() {
    for (Part part : PARTS) {
      for (String name : part.packageNames()) {
        assertTrue(
            name.matches("(PDIP|SOIC|SSOP|TSSOP|LQFP|TQFP|QFN|XSON)-[0-9]+"),
            part.name() + " " + name);
      }
    }
  }
}
