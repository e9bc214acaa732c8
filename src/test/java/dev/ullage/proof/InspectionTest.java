package dev.ullage.proof;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.testing.Tool;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.function.ToIntFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The emitted samples under compilers for this computer and a static analyser. */
class InspectionTest {
  private static final int FEWEST_SAMPLES = 15;
  private static final String[] EMITTED = {"src", "bus", "port"};
  private static final List<String> WARNINGS =
      EmittedSample.words("-std=c99 -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror");

  /** A header alone is no translation unit: hooks that nobody has filled in hold nothing. */
  private static final List<String> OF_HEADERS =
      WARNINGS.stream().filter(each -> !each.equals("-Wpedantic")).toList();

  private static final List<String> CPPCHECK =
      EmittedSample.words(
          "cppcheck --quiet --std=c99 --inline-suppr"
              + " --enable=warning,style,performance,portability");

  /** A row of the list in DEVELOPERS.md, and how cppcheck names a rule. */
  private static final Pattern LISTED = Pattern.compile("(?m)^\\| MISRA ([0-9., ]+) \\|");

  private static final Pattern FOUND = Pattern.compile("\\[misra-c2012-(\\d+\\.\\d+)\\]");

  @TempDir private Path temp;

  static List<EmittedSample> samples() {
    List<EmittedSample> samples = EmittedSample.all();
    assertTrue(samples.size() >= FEWEST_SAMPLES, samples::toString);
    return samples;
  }

  @ParameterizedTest
  @MethodSource("samples")
  void portablePart_isWithoutWarningsForThisComputer(EmittedSample sample) throws IOException {
    Tool.require("gcc");
    List<String> command = new ArrayList<>(List.of("gcc", "-Os", "-c"));
    // The port is the part's own; its stand-in is what the checks use.
    command.addAll(List.of("-include", "check/fake.h", "-Dmain=firmware_main"));
    command.addAll(WARNINGS);
    for (String file : sample.files(".c", "src")) {
      List<String> one = new ArrayList<>(command);
      one.addAll(List.of("-o", temp.resolve("object.o").toString()));
      assertEquals("", sample.run(one, List.of(file)));
    }
  }

  @ParameterizedTest
  @MethodSource("samples")
  void portablePart_isWithoutWarningsOfClang(EmittedSample sample) {
    String clang = Tool.isThere("clang") ? "clang" : "clang-14";
    Tool.require(clang);
    List<String> command = new ArrayList<>(List.of(clang, "-fsyntax-only"));
    command.addAll(List.of("-include", "check/fake.h", "-Dmain=firmware_main"));
    command.addAll(WARNINGS);
    assertEquals("", sample.run(command, sample.files(".c", "src")));
  }

  @ParameterizedTest
  @MethodSource("samples")
  void headers_compileAlone(EmittedSample sample) {
    Tool.require("gcc", sample.compiler().get(0));
    List<String> host = new ArrayList<>(List.of("gcc", "-fsyntax-only", "-x", "c"));
    host.addAll(OF_HEADERS);
    assertEquals("", sample.run(host, sample.files(".h", "src", "bus", "yours")));
    List<String> part = new ArrayList<>(sample.compiler());
    part.addAll(List.of("-fsyntax-only", "-Os", "-ffreestanding", "-x", "c"));
    part.addAll(OF_HEADERS);
    assertEquals("", sample.run(part, sample.files(".h", "src", "bus", "port", "yours")));
  }

  @ParameterizedTest
  @MethodSource("samples")
  void cppcheck_findsNothing(EmittedSample sample) {
    Tool.require("cppcheck");
    assertEquals("", sample.run(cppcheck(sample), List.of(EMITTED)));
  }

  private static List<String> cppcheck(EmittedSample sample) {
    List<String> command = new ArrayList<>(CPPCHECK);
    boolean avr = sample.definition().equals("-D__AVR__");
    command.add("--platform=" + (avr ? "avr8" : "unix32"));
    return command;
  }

  /** All sources as one, as {@code make small} compiles them: the addon is slow to start. */
  @Test
  void misraAddon_findsWhatIsListedAndNothingElse() throws IOException {
    Tool.require("cppcheck");
    Set<String> found = new ConcurrentSkipListSet<>();
    samples().parallelStream().forEach(sample -> found.addAll(rulesBrokenIn(sample)));
    Ledger.row(Figures.EMITTED, "rules of MISRA C:2012 left, with reasons below", found.size());
    assertEquals(listed(), found);
  }

  private Set<String> rulesBrokenIn(EmittedSample sample) {
    String whole =
        sample.files(".c", EMITTED).stream()
            .map(file -> "#include \"" + sample.root().resolve(file).toAbsolutePath() + "\"\n")
            .collect(Collectors.joining());
    List<String> command = cppcheck(sample);
    command.addAll(List.of("--addon=misra", sample.definition(), "-D__GNUC__"));
    String said = sample.run(command, List.of(written(sample, whole).toString()));
    assertFalse(said.contains("error:"), said);
    return FOUND
        .matcher(said)
        .results()
        .map(finding -> finding.group(1))
        .collect(Collectors.toSet());
  }

  /** In a folder of its own, where cppcheck leaves files under names that are always the same. */
  private Path written(EmittedSample sample, String text) {
    try {
      Path folder = Files.createDirectories(temp.resolve(sample.toString()));
      return Files.writeString(folder.resolve("whole.c"), text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Set<String> listed() throws IOException {
    Matcher rules = LISTED.matcher(Files.readString(Path.of("DEVELOPERS.md")));
    return rules
        .results()
        .flatMap(rule -> Stream.of(rule.group(1).split(", ")))
        .collect(Collectors.toCollection(TreeSet::new));
  }

  /** A function, and where it is. */
  private record Place(CodeShape.Function function, String file) {
    @Override
    public String toString() {
      return "`" + function.name() + "` in " + file;
    }
  }

  /** So that they can be seen to shrink. */
  @Test
  void sizesOfTheSampleSet_arePrinted() {
    List<Place> functions = new ArrayList<>();
    int files = 0;
    int lines = 0;
    int code = 0;
    for (EmittedSample sample : samples()) {
      for (String file :
          Stream.concat(sample.files(".c", EMITTED).stream(), sample.files(".h", EMITTED).stream())
              .toList()) {
        CodeShape shape = CodeShape.of(sample.text(file));
        shape.functions().forEach(each -> functions.add(new Place(each, sample + "/" + file)));
        files++;
        lines += shape.lines();
        code += shape.codeLines();
      }
    }
    Place longest = most(functions, CodeShape.Function::lines);
    Place deepest = most(functions, CodeShape.Function::nesting);
    print("folders", samples().size());
    print("files of C", files);
    print("lines", lines);
    print("lines that are more than comment", code);
    print("functions with a body", functions.size());
    print("longest function", longest.function().lines() + " lines, " + longest);
    print("deepest nesting", deepest.function().nesting() + " blocks, " + deepest);
    assertTrue(longest.function().lines() <= 60, longest::toString);
    assertTrue(deepest.function().nesting() <= 4, deepest::toString);
  }

  private static Place most(List<Place> functions, ToIntFunction<CodeShape.Function> figure) {
    return functions.stream()
        .max(Comparator.comparingInt(place -> figure.applyAsInt(place.function())))
        .orElseThrow();
  }

  private static void print(String what, Object figure) {
    System.out.println("emitted samples: " + what + ": " + figure);
    Ledger.row(Figures.EMITTED, what, figure);
  }
}
