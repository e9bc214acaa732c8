package dev.ullage.target;

import dev.ullage.formula.Recipe;
import dev.ullage.input.Findings;
import dev.ullage.input.InputException;
import dev.ullage.input.Node;
import dev.ullage.input.YamlTree;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads one file of the catalogue: a family and its targets. */
final class FamilyReader {
  /** Stands in for a clock with a finding; no target with it is ever returned. */
  private static final Clock NO_CLOCK =
      new Clock(0, List.of(), new TreeMap<>(), false, List.of(), BigDecimal.ZERO, BigDecimal.ZERO);

  private static final Clock.Setting NO_SETTING = new Clock.Setting("", "");
  private static final Core NO_CORE =
      new Core(
          "",
          "",
          "",
          List.of(),
          List.of(),
          List.of(),
          List.of(),
          0,
          Recipe.of(Map.of()),
          Optional.empty());

  /** Stands in for a supply range with a finding. */
  private static final List<BigDecimal> NO_SUPPLY = List.of(BigDecimal.ZERO, BigDecimal.ZERO);

  private static final Pattern BALL = Pattern.compile("([A-Z]{1,2}[0-9]{1,2})=(.+)");

  private final Commons commons;
  private final Family family;
  private final Map<String, Clock> clocks;
  private final Map<String, Package> packages;
  private final int flashStart;
  private final int ramStart;
  private final Map<String, String> sources;

  private FamilyReader(Section root, Commons commons) {
    this.commons = commons;
    this.family = new HardwareReader(commons.recipes()).family(root);
    this.clocks = root.named("clocks", (name, clock) -> clock(clock));
    this.packages = root.section("packages", all -> all.each(name -> sold(all, name)));
    this.flashStart = root.has("flash_start") ? root.integer("flash_start") : 0;
    this.ramStart = root.has("ram_start") ? root.integer("ram_start") : 0;
    this.sources = ListedReader.sources(root, Map.of());
  }

  /**
   * A package. What stands behind a slash in its name tells pinouts of one package apart. Pins
   * stand in the order of their numbers; those of a grid of balls with their place: {@code B3=PC2}.
   */
  private static Package sold(Section packages, String name) {
    String sold = name.split("/", 2)[0];
    return packages
        .parsed(name, pins -> sold(sold, pins), "pin names, all of them with a ball or none")
        .orElseGet(() -> new Package(sold, List.of()));
  }

  private static Package sold(String name, String text) {
    List<String> pins = new ArrayList<>();
    List<String> balls = new ArrayList<>();
    for (String word : text.split(" ")) {
      Matcher ball = BALL.matcher(word);
      if (ball.matches()) {
        balls.add(ball.group(1));
      }
      pins.add(ball.matches() ? ball.group(2) : word);
    }
    return new Package(name, pins, balls);
  }

  /**
   * The parts of a family, in the order of the file.
   *
   * @param file its name, for the findings
   * @param commons what it may refer to
   * @throws InputException with everything that is wrong with the file
   */
  static List<Part> read(String file, String yaml, Commons commons) {
    Findings findings = new Findings(file);
    Node.Mapping root = PlainYaml.read(yaml).orElseGet(() -> YamlTree.read(yaml, findings));
    List<Part> parts = new Section("", root, findings).read(all -> parts(all, commons));
    findings.throwIfAny();
    return parts;
  }

  private static List<Part> parts(Section root, Commons commons) {
    if (root.has("notes")) {
      root.elements("notes", note -> note, "a sentence"); // for whoever opens the file
    }
    if (root.has(ListedReader.GRADE)) {
      return ListedReader.parts(root);
    }
    FamilyReader reader = new FamilyReader(root, commons);
    return List.copyOf(root.named("targets", reader::target).values());
  }

  /** Program memory: {@code 32768}, or {@code 2097152 external} of a chip beside the part. */
  private record Flash(int bytes, boolean beside) {
    static Flash parse(String text) {
      String[] words = text.split(" ", 2);
      if (words.length == 2 && !words[1].equals(ListedReader.EXTERNAL)) {
        throw new IllegalArgumentException(text);
      }
      return new Flash(Integer.decode(words[0]), words.length == 2);
    }
  }

  private Target target(String name, Section part) {
    Flash flash =
        part.parsed("flash", Flash::parse, "a whole number of bytes, external or not")
            .orElse(new Flash(0, false));
    return new Target(
        name,
        part.text("title"),
        family,
        part.parsed("core", key -> find(commons.cores(), key), "a core of cores.yaml")
            .orElse(NO_CORE),
        part.has("stack_pointer_bits") ? part.integer("stack_pointer_bits") : Integer.SIZE,
        flashStart,
        flash.bytes(),
        flash.beside(),
        part.integer("ram"),
        part.has("ram_start") ? part.integer("ram_start") : ramStart,
        part.integer("eeprom"),
        part.integer("vectors"),
        part.has("vector_bytes") ? part.integer("vector_bytes") : Integer.BYTES,
        part.parsed("clock", key -> find(clocks, key), "one of the clocks above").orElse(NO_CLOCK),
        part.words("packages", key -> find(packages, key), "packages from above"),
        ListedReader.sources(part, sources));
  }

  static <T> T find(Map<String, T> all, String key) {
    return Optional.ofNullable(all.get(key)).orElseThrow(() -> new IllegalArgumentException(key));
  }

  private static Clock clock(Section clock) {
    List<BigDecimal> supply = supply(clock);
    int factoryHz = clock.integer("factory_hz");
    List<Long> internalHz =
        clock.has("settings")
            ? List.of()
            : clock.words("internal_hz", Long::decode, "whole numbers");
    return new Clock(
        factoryHz,
        internalHz,
        settings(clock, factoryHz, internalHz),
        !clock.has("settings"),
        grades(clock),
        supply.get(0),
        supply.get(1));
  }

  /** Clocks that the program sets, such as {@code 48000000: pll 10}, or those of a prescaler. */
  private static SortedMap<Long, Clock.Setting> settings(
      Section clock, long factoryHz, List<Long> internalHz) {
    if (clock.has("settings")) {
      Map<Long, Clock.Setting> settings =
          clock.section("settings", all -> all.numbered(Long::decode, hz -> setting(all, hz)));
      return new TreeMap<>(settings);
    }
    boolean halves = clock.choice("prescaler", List.of("false", "true")) == 1;
    return halves ? Clock.halvings(factoryHz, internalHz) : new TreeMap<>();
  }

  private static Clock.Setting setting(Section settings, String hz) {
    return settings
        .parsed(hz, FamilyReader::setting, "a way and a number, such as pll 10")
        .orElse(NO_SETTING);
  }

  private static Clock.Setting setting(String text) {
    String[] words = text.split(" ", 2);
    if (words.length < 2) {
      throw new IllegalArgumentException(text);
    }
    return new Clock.Setting(words[0], words[1] + "u");
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
