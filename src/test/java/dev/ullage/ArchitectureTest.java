package dev.ullage;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Which package may use which, and which library lives where. */
class ArchitectureTest {
  private static final String ROOT = "dev.ullage";
  private static final int FEWEST_CLASSES = 100;

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages(ROOT);

  /** What each package may use besides itself: the picture in DEVELOPERS.md. */
  private static final Map<String, Set<String>> MAY_USE = new TreeMap<>();

  static {
    MAY_USE.put("input", Set.of());
    MAY_USE.put("loop", Set.of("input"));
    MAY_USE.put("formula", Set.of());
    MAY_USE.put("target", Set.of("formula", "input"));
    MAY_USE.put("measure", Set.of("input"));
    MAY_USE.put("firmware", Set.of("formula", "loop", "target"));
    MAY_USE.put("sizing", Set.of("measure", "firmware", "loop", "target", "input"));
    MAY_USE.put("slim", Set.of("sizing", "firmware", "loop", "target", "input"));
    MAY_USE.put("audit", Set.of("sizing", "measure", "loop", "target", "input"));
    MAY_USE.put("wiring", Set.of("firmware", "loop", "target"));
    MAY_USE.put("emit", Set.of("wiring", "firmware", "loop", "target", "input"));
    MAY_USE.put(
        "calibrate", Set.of("emit", "sizing", "measure", "firmware", "loop", "target", "input"));
    MAY_USE.put("replay", Set.of("firmware", "loop", "input"));
    MAY_USE.put(
        "report",
        Set.of(
            "audit",
            "replay",
            "emit",
            "slim",
            "wiring",
            "sizing",
            "measure",
            "firmware",
            "loop",
            "target",
            "input"));
    Set<String> all = new TreeSet<>(MAY_USE.keySet());
    MAY_USE.put("cli", all);
  }

  @Test
  void scan_findsTheTool() {
    assertTrue(CLASSES.size() >= FEWEST_CLASSES, "Only " + CLASSES.size() + " classes.");
    Set<String> found = new TreeSet<>();
    CLASSES.forEach(type -> found.add(packageOf(type.getPackageName())));
    found.remove("");
    assertEquals(MAY_USE.keySet(), found, "Say here what a new package may use.");
  }

  private static String packageOf(String name) {
    return name.equals(ROOT) ? "" : name.substring(ROOT.length() + 1).split("\\.")[0];
  }

  static Set<String> packages() {
    return MAY_USE.keySet();
  }

  @ParameterizedTest
  @MethodSource("packages")
  void packages_pointOneWay(String name) {
    String[] others =
        MAY_USE.keySet().stream()
            .filter(other -> !other.equals(name) && !MAY_USE.get(name).contains(other))
            .map(other -> ROOT + "." + other + "..")
            .toArray(String[]::new);
    if (others.length > 0) {
      noClasses()
          .that()
          .resideInAPackage(ROOT + "." + name + "..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(others)
          .check(CLASSES);
    }
  }

  @Test
  void packages_haveNoCycles() {
    slices().matching(ROOT + ".(*)..").should().beFreeOfCycles().check(CLASSES);
  }

  /** The readers of input files share one YAML reader, in {@code input}. */
  @ParameterizedTest
  @CsvSource({
    "picocli, cli",
    "freemarker, emit|report",
    "org.snakeyaml, input",
    "com.fasterxml, report|emit|cli",
    "net.fornwall, measure",
    "org.apache.commons.csv, replay"
  })
  void libraries_stayInTheirPackages(String library, String homes) {
    String[] allowed = homes.split("\\|");
    for (int i = 0; i < allowed.length; i++) {
      allowed[i] = ROOT + "." + allowed[i] + "..";
    }
    noClasses()
        .that()
        .resideOutsideOfPackages(allowed)
        .should()
        .dependOnClassesThat()
        .resideInAPackage(library + "..")
        .check(CLASSES);
  }

  @Test
  void process_isTouchedInTwoPlacesOnly() {
    noClasses()
        .that()
        .doNotHaveFullyQualifiedName(ROOT + ".cli.Main")
        .should()
        .callMethod(System.class, "exit", int.class)
        .orShould()
        .callMethod(Runtime.class, "halt", int.class)
        .check(CLASSES);
    noClasses()
        .that()
        .doNotHaveFullyQualifiedName(ROOT + ".cli.Surroundings")
        .should()
        .accessField(System.class, "out")
        .orShould()
        .accessField(System.class, "err")
        .orShould()
        .callMethod(System.class, "console")
        .check(CLASSES);
  }
}
