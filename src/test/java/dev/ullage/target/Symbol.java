package dev.ullage.target;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A part as a symbol library of KiCad 6 draws it.
 *
 * @param name order code: {@code ATSAMD21E15A-A}
 * @param packageName by the rules of the catalogue: {@code TQFP-32}
 * @param pins by number, all the names that stand at the pin; pads and flags are left out
 */
record Symbol(String name, Optional<String> packageName, Map<String, Set<String>> pins) {
  private static final Pattern EXTENDS = Pattern.compile("\\(extends \"([^\"]+)\"\\)");
  private static final Pattern FOOTPRINT = Pattern.compile("\"Footprint\" \"[^\":]*:([^\"]*)\"");
  private static final Pattern PACKAGE = Pattern.compile("([A-Z]+)-(\\d+).*");
  private static final Pattern PIN =
      Pattern.compile(
          "\\(pin \\w+ \\w+ .*?\\(name \"([^\"]*)\".*?\\(number \"([^\"]*)\"", Pattern.DOTALL);

  /** Names that differ in size or rim only are one package. */
  private static final Map<String, String> KINDS =
      Map.of(
          "DIP", "PDIP", "UFBGA", "BGA", "MLF", "QFN", "VQFN", "QFN", "UQFN", "QFN", "WQFN", "QFN",
          "SO", "SOIC");

  /** All symbols of a library; one that extends another has the pins of the other. */
  static List<Symbol> all(String library) {
    Map<String, String> texts = new LinkedHashMap<>();
    for (String text : library.split("\n {2}\\(symbol \"")) {
      texts.put(text.substring(0, Math.max(0, text.indexOf('"'))), text);
    }
    List<Symbol> symbols = new ArrayList<>();
    texts.forEach(
        (name, text) -> {
          String drawn = first(EXTENDS, text).map(texts::get).orElse(text);
          symbols.add(new Symbol(name, first(FOOTPRINT, text).flatMap(Symbol::kind), pins(drawn)));
        });
    return symbols;
  }

  private static Optional<String> first(Pattern pattern, String text) {
    return pattern.matcher(text).results().map(found -> found.group(1)).findFirst();
  }

  /** Of the footprint {@code VQFN-20-1EP_3x3mm}: {@code QFN-20}. */
  private static Optional<String> kind(String footprint) {
    Matcher found = PACKAGE.matcher(footprint);
    return found.matches()
        ? Optional.of(KINDS.getOrDefault(found.group(1), found.group(1)) + "-" + found.group(2))
        : Optional.empty();
  }

  private static Map<String, Set<String>> pins(String text) {
    Map<String, Set<String>> pins = new LinkedHashMap<>();
    PIN.matcher(text)
        .results()
        .filter(pin -> pin.group(2).matches("[A-Z]?\\d+"))
        .forEach(
            pin -> pins.put(pin.group(2), Set.of(pin.group(1).replace("_ADC", "/ADC").split("/"))));
    return pins;
  }
}
