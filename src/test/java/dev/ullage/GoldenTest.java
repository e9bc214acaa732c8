package dev.ullage;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.cli.Run;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.TimeZone;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What lies in {@code generated-samples} is what the tool writes today. */
class GoldenTest {
  private static final Path SAMPLES = Path.of("generated-samples");
  private static final String REWRITE =
      "If this is meant: `mvn test -Dtest=GoldenTest -Dullage.golden=write`, and review it.\n";

  /** Each sample with the parts that it is emitted for. */
  private static final List<String> FOLDERS =
      List.of(
          "bee-hive/atmega2560",
          "bee-hive/attiny13a",
          "bee-hive/attiny88",
          "bilge/atmega328p",
          "bilge/attiny2313a",
          "bilge/attiny84",
          "cold-store/atmega328p",
          "cold-store/attiny13a",
          "cold-store/attiny85",
          "cold-store/ch32v003f4p6",
          "cold-store/stm32f030f4",
          "compost-heap/atmega8a",
          "compost-heap/attiny1634",
          "compost-heap/attiny85",
          "grain-dryer/atmega1284p",
          "grain-dryer/atmega328p",
          "grain-dryer/atmega88pa");

  @TempDir private Path temp;

  @BeforeAll
  static void rewriteIfAsked() throws IOException {
    if (System.getProperty("ullage.golden", "check").equals("write")) {
      deleteFolders();
      emitInto(SAMPLES);
    }
  }

  @Test
  void samples_areWhatIsEmitted() {
    assertSamplesAreEmitted();
  }

  /** Digits, letter case, decimal points and dates are other ones there. */
  @ParameterizedTest
  @CsvSource({
    "de-DE, America/St_Johns",
    "tr-TR, Asia/Tokyo",
    "ar-EG-u-nu-arab, Pacific/Kiritimati"
  })
  void localeAndTimeZone_changeNothing(String locale, String zone) {
    Locale locally = Locale.getDefault();
    TimeZone here = TimeZone.getDefault();
    try {
      Locale.setDefault(Locale.forLanguageTag(locale));
      TimeZone.setDefault(TimeZone.getTimeZone(zone));
      assertSamplesAreEmitted();
    } finally {
      Locale.setDefault(locally);
      TimeZone.setDefault(here);
    }
  }

  @Test
  void secondRun_changesNothing() {
    emitInto(temp);
    assertSamplesAreEmitted();
  }

  @Test
  void folders_areThoseAbove() throws IOException {
    assertEquals(FOLDERS, foldersThere());
  }

  @Test
  void wrongFolder_isNamedWithItsFirstWrongLine() throws IOException {
    Path sample = SAMPLES.resolve(FOLDERS.get(0));
    emit(FOLDERS.get(0), temp);
    Files.delete(temp.resolve("src/main.c"));
    Files.writeString(temp.resolve("src/more.c"), "int more;\n");
    Files.writeString(temp.resolve("src/alarm.h"), "int alarm;\n");
    List<String> differences = FolderDiff.between(sample, temp);
    assertEquals(3, differences.size(), differences.toString());
    assertTrue(differences.get(0).startsWith("differs: src/alarm.h:1\n"), differences.get(0));
    assertTrue(differences.get(0).endsWith("\n  found  `int alarm;`"), differences.get(0));
    assertEquals(
        List.of("missing: src/main.c", "extra: src/more.c"),
        differences.subList(1, differences.size()));
  }

  private void assertSamplesAreEmitted() {
    emitInto(temp);
    List<String> differences = new ArrayList<>();
    for (String folder : FOLDERS) {
      FolderDiff.between(SAMPLES.resolve(folder), temp.resolve(folder))
          .forEach(difference -> differences.add("generated-samples/" + folder + " " + difference));
    }
    assertTrue(differences.isEmpty(), () -> REWRITE + String.join("\n", differences));
  }

  private static void emitInto(Path root) {
    FOLDERS.forEach(folder -> emit(folder, root.resolve(folder)));
  }

  private static void emit(String folder, Path to) {
    String sample = folder.substring(0, folder.indexOf('/'));
    String target = folder.substring(folder.indexOf('/') + 1);
    String loop = SAMPLES.resolve(sample).resolve(sample + ".yaml").toString();
    Run run = Run.of("emit", loop, "-t", target, "-o", to.toString());
    assertTrue(run.isGood(), folder + ": " + run);
  }

  private static List<String> foldersThere() throws IOException {
    try (Stream<Path> paths = Files.walk(SAMPLES, 2)) {
      return paths
          .filter(path -> path.getNameCount() == SAMPLES.getNameCount() + 2)
          .filter(Files::isDirectory)
          .map(path -> path.getParent().getFileName() + "/" + path.getFileName())
          .sorted()
          .toList();
    }
  }

  private static void deleteFolders() throws IOException {
    for (String folder : foldersThere()) {
      try (Stream<Path> paths = Files.walk(SAMPLES.resolve(folder))) {
        for (Path path : paths.sorted((a, b) -> b.compareTo(a)).toList()) {
          Files.delete(path);
        }
      }
    }
  }
}
