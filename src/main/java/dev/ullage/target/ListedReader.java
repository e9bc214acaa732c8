package dev.ullage.target;

import java.math.BigDecimal;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** Reads a family that has no port: no registers, and the limits of each part with their source. */
final class ListedReader {
  /** Stands where other families have their port. */
  static final String GRADE = "grade";

  static final String EXTERNAL = "external";
  private static final String CLOCK = "clock";
  private static final String EEPROM = "eeprom";
  private static final String FLASH = "flash";
  private static final String PACKAGES = "packages";
  private static final String RAM = "ram";
  private static final String SOURCES = "sources";
  private static final String TWO_WIRE = "two_wire";

  private final ListedFamily family;
  private final Map<String, Rating> clocks;
  private final Map<String, String> sources;

  private ListedReader(Section root) {
    root.choice(GRADE, List.of("listed"));
    family = new ListedFamily(root.text("family"), root.text("title"), root.text("core"));
    clocks = root.named("clocks", (name, clock) -> rating(clock));
    sources = sources(root, Map.of());
  }

  static List<Part> parts(Section root) {
    ListedReader reader = new ListedReader(root);
    return List.copyOf(root.named("targets", reader::part).values());
  }

  private Part part(String name, Section part) {
    ListedPart read =
        new ListedPart(
            name,
            part.text("title"),
            family,
            flash(part),
            part.integer(RAM),
            part.has(EEPROM) ? OptionalInt.of(part.integer(EEPROM)) : OptionalInt.empty(),
            part.has(TWO_WIRE)
                ? Optional.of(HardwareReader.kind(part, TWO_WIRE))
                : Optional.empty(),
            part.has(CLOCK) ? clock(part) : Optional.empty(),
            part.has(PACKAGES) ? part.words(PACKAGES, sold -> sold, "packages") : List.of(),
            sources(part, sources));
    checkSources(part, read);
    return read;
  }

  private static OptionalInt flash(Section part) {
    return part.parsed(FLASH, ListedReader::flash, "a whole number of bytes, or external")
        .orElse(OptionalInt.empty());
  }

  private static OptionalInt flash(String text) {
    return text.equals(EXTERNAL) ? OptionalInt.empty() : OptionalInt.of(Integer.decode(text));
  }

  private Optional<Rating> clock(Section part) {
    return part.parsed(CLOCK, key -> FamilyReader.find(clocks, key), "one of the clocks above");
  }

  private static Rating rating(Section clock) {
    List<BigDecimal> supply = FamilyReader.supply(clock);
    return new Rating(clock.integer("max_hz"), supply.get(0), supply.get(1));
  }

  /** Those of the family, and in their place those that a part has of its own. */
  static Map<String, String> sources(Section section, Map<String, String> ofFamily) {
    Map<String, String> all = new HashMap<>(ofFamily);
    if (section.has(SOURCES)) {
      all.putAll(section.section(SOURCES, own -> own.each(own::text)));
    }
    return Map.copyOf(all);
  }

  /** A value that nobody vouches for is a mistake of the file. */
  private static void checkSources(Section part, ListedPart read) {
    for (String key : List.of(FLASH, RAM, EEPROM, TWO_WIRE, CLOCK, PACKAGES)) {
      if (part.has(key) && !read.sources().containsKey(key)) {
        part.reject(key, "no source", "a source for it, here or in the family");
      }
    }
  }
}
