package dev.ullage.target;

import dev.ullage.formula.Ratio;
import dev.ullage.formula.Recipe;
import dev.ullage.input.Findings;
import dev.ullage.input.Node;
import dev.ullage.input.YamlTree;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What the pins of a group of families can carry and how they read a level, and what the parts take
 * themselves.
 *
 * @param families what the names of the families begin with
 * @param pinMa current of a pin at which its levels are still given, in mA, by the supply in V from
 *     which that holds
 * @param pinMostMa absolute maximum of a pin, in mA
 * @param allPinsMostMa absolute maximum of all pins together, in mA; empty where it is not known
 * @param levels from {@code supply} in V to {@code low} and {@code high}: an input reads low below
 *     the one and high above the other
 * @param tolerates from {@code supply} to {@code most}, what a bus pin bears, in V
 * @param active, idle, nap what the part takes: at work, in idle sleep, asleep with its watchdog
 * @param sources where each of these was found
 */
public record Electrical(
    List<String> families,
    SortedMap<BigDecimal, BigDecimal> pinMa,
    BigDecimal pinMostMa,
    Optional<BigDecimal> allPinsMostMa,
    Recipe levels,
    Recipe tolerates,
    Optional<Taken> active,
    Optional<Taken> idle,
    Optional<BigDecimal> napMa,
    Map<String, String> sources) {

  private static final String FILE = "targets/electrical.yaml";

  public Electrical {
    families = List.copyOf(families);
    pinMa = java.util.Collections.unmodifiableSortedMap(new TreeMap<>(pinMa));
    sources = Map.copyOf(sources);
  }

  /**
   * A supply current of a data sheet.
   *
   * @param ma the current, in mA
   * @param mhz at this clock
   * @param volts at this supply
   * @param most whether it is the most that a part takes, or what is typical
   */
  public record Taken(double ma, double mhz, double volts, boolean most) {
    /** At another clock and supply, in proportion to both (common practice, no source). */
    public double ma(long clockHz, double supplyV) {
      return ma * clockHz / (mhz * 1e6) * supplyV / volts;
    }
  }

  /** What is known of a family: the entry with the longest name that its name begins with. */
  public static Optional<Electrical> of(String family) {
    return read().stream()
        .filter(each -> each.longestFor(family) > 0)
        .max(Comparator.comparingInt(each -> each.longestFor(family)));
  }

  /** All of them. */
  static List<Electrical> read() {
    return read(FILE, text());
  }

  static List<Electrical> read(String file, String yaml) {
    Findings findings = new Findings(file);
    Node.Mapping root = YamlTree.read(yaml, findings);
    List<Electrical> all =
        new Section("", root, findings).read(r -> r.list("groups", Electrical::group));
    findings.throwIfAny();
    return all;
  }

  private static String text() {
    try (InputStream stream = Electrical.class.getResourceAsStream('/' + FILE)) {
      if (stream == null) {
        throw new IllegalStateException("The catalogue lacks `electrical.yaml`.");
      }
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Electrical group(Section group) {
    return new Electrical(
        group.words("families", word -> word, "beginnings of family names"),
        byVolts(group),
        decimal(group, "pin_most_ma"),
        group.has("all_pins_most_ma")
            ? Optional.of(decimal(group, "all_pins_most_ma"))
            : Optional.empty(),
        group.section("levels", Section::recipe),
        group.section("tolerates", Section::recipe),
        group.optional("active", Electrical::taken),
        group.optional("idle", Electrical::taken),
        group.has("nap_ma") ? Optional.of(decimal(group, "nap_ma")) : Optional.empty(),
        group.section("sources", s -> s.each(s::text)));
  }

  private static SortedMap<BigDecimal, BigDecimal> byVolts(Section group) {
    Map<BigDecimal, BigDecimal> ma =
        group.section("pin_ma", given -> given.numbered(BigDecimal::new, k -> decimal(given, k)));
    return new TreeMap<>(ma);
  }

  private static Taken taken(Section taken) {
    return new Taken(
        decimal(taken, "ma").doubleValue(),
        decimal(taken, "mhz").doubleValue(),
        decimal(taken, "v").doubleValue(),
        taken.choice("is", List.of("typical", "most")) == 1);
  }

  private static BigDecimal decimal(Section section, String key) {
    return section.parsed(key, BigDecimal::new, "a number").orElse(BigDecimal.ZERO);
  }

  private int longestFor(String family) {
    return families.stream().filter(family::startsWith).mapToInt(String::length).max().orElse(0);
  }

  /** What a pin gives with its levels kept, at this supply, in mA. */
  public double pinMa(double supplyV) {
    return pinMa.entrySet().stream()
        .filter(entry -> entry.getKey().doubleValue() <= supplyV)
        .reduce((first, second) -> second)
        .map(Map.Entry::getValue)
        .orElseGet(() -> pinMa.isEmpty() ? BigDecimal.ZERO : pinMa.get(pinMa.firstKey()))
        .doubleValue();
  }

  /** An input surely reads low below this, in V. */
  public double lowV(double supplyV) {
    return solved(levels, supplyV, "low");
  }

  /** An input surely reads high above this, in V. */
  public double highV(double supplyV) {
    return solved(levels, supplyV, "high");
  }

  /** The most that a bus pin bears, in V. */
  public double toleratesV(double supplyV) {
    return solved(tolerates, supplyV, "most");
  }

  private static double solved(Recipe recipe, double supplyV, String name) {
    return recipe.solve(Map.of("supply", Ratio.of(BigDecimal.valueOf(supplyV)))).real(name);
  }
}
