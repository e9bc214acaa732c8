package dev.ullage.target;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/** Reads one file of the catalogue: a family and its targets. */
final class FamilyReader {
  private static final LoadSettings SETTINGS =
      LoadSettings.builder().setMaxAliasesForCollections(0).build();

  /** Stands in for a clock with a finding; no target with it is ever returned. */
  private static final Clock NO_CLOCK =
      new Clock(0, List.of(), false, List.of(), BigDecimal.ZERO, BigDecimal.ZERO);

  private FamilyReader() {}

  /**
   * The targets of a family, in the order of the file.
   *
   * @param file its name, for the findings
   * @throws InputException with everything that is wrong with the file
   */
  static List<Target> read(String file, String yaml) {
    List<Finding> findings = new ArrayList<>();
    List<Target> targets = root(file, yaml, findings).read(FamilyReader::targets);
    if (!findings.isEmpty()) {
      throw new InputException(findings);
    }
    return targets;
  }

  private static Section root(String file, String yaml, List<Finding> findings) {
    try {
      return new Compose(SETTINGS)
          .composeString(yaml)
          .map(node -> new Section(file, "", node, findings))
          .orElseThrow(() -> unreadable(file, 0, "empty"));
    } catch (MarkedYamlEngineException e) {
      int line = e.getProblemMark().map(mark -> mark.getLine() + 1).orElse(0);
      throw unreadable(file, line, e.getProblem());
    } catch (YamlEngineException e) {
      throw unreadable(file, 0, String.valueOf(e.getMessage()));
    }
  }

  private static InputException unreadable(String file, int line, String found) {
    return new InputException(
        new Finding(file, line, 0, "", found, "the YAML of a family", Optional.empty()));
  }

  private static List<Target> targets(Section root) {
    if (root.has("notes")) {
      HardwareReader.names(root, "notes"); // for whoever opens the file
    }
    Family family = HardwareReader.family(root);
    Map<String, Clock> clocks = root.named("clocks", (name, clock) -> clock(clock));
    Map<String, Package> packages =
        root.section(
            "packages",
            all -> all.each(name -> new Package(name, HardwareReader.names(all, name))));
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
        part.elements("packages", key -> find(packages, key), "packages from above"));
  }

  private static <T> T find(Map<String, T> all, String key) {
    return Optional.ofNullable(all.get(key)).orElseThrow(() -> new IllegalArgumentException(key));
  }

  private static Clock clock(Section clock) {
    List<BigDecimal> supply = clock.elements("supply_v", BigDecimal::new, "two voltages");
    if (supply.size() != 2) {
      clock.reject("supply_v", "two voltages");
      return NO_CLOCK;
    }
    return new Clock(
        clock.integer("factory_hz"),
        clock.elements("internal_hz", Long::decode, "a list of whole numbers"),
        clock.choice("prescaler", List.of("false", "true")) == 1,
        grades(clock),
        supply.get(0),
        supply.get(1));
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
