package dev.ullage.target;

import dev.ullage.input.Findings;
import dev.ullage.input.InputException;
import dev.ullage.input.Node;
import dev.ullage.input.YamlTree;
import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** Reads one file of the catalogue: a family and its targets. */
final class FamilyReader {
  /** Stands in for a clock with a finding; no target with it is ever returned. */
  private static final Clock NO_CLOCK =
      new Clock(0, List.of(), false, List.of(), BigDecimal.ZERO, BigDecimal.ZERO);

  /** Stands in for a supply range with a finding. */
  private static final List<BigDecimal> NO_SUPPLY = List.of(BigDecimal.ZERO, BigDecimal.ZERO);

  private FamilyReader() {}

  /**
   * The parts of a family, in the order of the file.
   *
   * @param file its name, for the findings
   * @throws InputException with everything that is wrong with the file
   */
  static List<Part> read(String file, String yaml) {
    Findings findings = new Findings(file);
    Node.Mapping root = PlainYaml.read(yaml).orElseGet(() -> YamlTree.read(yaml, findings));
    List<Part> parts = new Section("", root, findings).read(FamilyReader::parts);
    findings.throwIfAny();
    return parts;
  }

  private static List<Part> parts(Section root) {
    if (root.has("notes")) {
      root.elements("notes", note -> note, "a sentence"); // for whoever opens the file
    }
    return root.has(ListedReader.GRADE) ? ListedReader.parts(root) : targets(root);
  }

  private static List<Part> targets(Section root) {
    Family family = HardwareReader.family(root);
    Map<String, Clock> clocks = root.named("clocks", (name, clock) -> clock(clock));
    Map<String, Package> packages =
        root.section(
            "packages",
            all -> all.each(name -> new Package(name, all.words(name, pin -> pin, "pin names"))));
    return List.copyOf(
        root.named("targets", (name, part) -> target(name, part, family, clocks, packages))
            .values());
  }

  private static Target target(
      String name,
      Section part,
      Family family,
      Map<String, Clock> clocks,
      Map<String, Package> packages) {
    return new Target(
        name,
        part.text("title"),
        family,
        part.text("core"),
        part.integer("stack_pointer_bits"),
        part.has("return_address_bytes") ? part.integer("return_address_bytes") : 2,
        part.integer("flash"),
        part.integer("ram"),
        part.integer("ram_start"),
        part.integer("eeprom"),
        part.integer("vectors"),
        part.integer("vector_bytes"),
        part.parsed("clock", key -> find(clocks, key), "one of the clocks above").orElse(NO_CLOCK),
        part.words("packages", key -> find(packages, key), "packages from above"));
  }

  static <T> T find(Map<String, T> all, String key) {
    return Optional.ofNullable(all.get(key)).orElseThrow(() -> new IllegalArgumentException(key));
  }

  private static Clock clock(Section clock) {
    List<BigDecimal> supply = supply(clock);
    return new Clock(
        clock.integer("factory_hz"),
        clock.words("internal_hz", Long::decode, "whole numbers"),
        clock.choice("prescaler", List.of("false", "true")) == 1,
        grades(clock),
        supply.get(0),
        supply.get(1));
  }

  /** The lowest and the highest voltage. */
  static List<BigDecimal> supply(Section clock) {
    List<BigDecimal> supply = clock.words("supply_v", BigDecimal::new, "two voltages");
    if (supply.size() != 2) {
      clock.reject("supply_v", supply.size() + " voltages", "two voltages");
      return NO_SUPPLY;
    }
    return supply;
  }

  private static List<Clock.Grade> grades(Section clock) {
    return clock
        .section("grades", all -> new TreeMap<>(all.numbered(BigDecimal::new, all::integer)))
        .entrySet()
        .stream()
        .map(grade -> new Clock.Grade(grade.getKey(), grade.getValue()))
        .toList();
  }
}
