package dev.ullage.loop;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.Finding;
import dev.ullage.input.InputException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** Whatever a file holds, the reader gives a loop that keeps every rule, or findings. */
class LoopReaderProperties {
  /** What YAML and numbers are made of, and what has broken parsers before. */
  private static final String[] PIECES = {
    ":",
    ": ",
    "- ",
    "? ",
    "{",
    "}",
    "[",
    "]",
    ",",
    "#",
    "&a ",
    "*a",
    "!!str ",
    "!",
    "|",
    ">",
    "'",
    "\"",
    "\\",
    "%YAML 1.1\n",
    "---\n",
    "...\n",
    "\t",
    "\n",
    "  ",
    "\r",
    "<<",
    "~",
    "null",
    "true",
    "0x",
    "0o9",
    "1e99",
    "-",
    ".",
    "1e999999999",
    "9999999999999999999",
    "\u0000",
    "\u0085",
    "\u2028",
    "\ufeff",
    "\ud800",
    "\ud83d\udc1d",
    "\\ud800",
    "\"\\UFFFFFFFF\"",
    "none",
    "@",
    "`"
  };

  @Property
  void anyBytesGiveALoopOrFindings(@ForAll byte[] bytes) {
    check(bytes);
  }

  @Property
  void anyTextGivesALoopOrFindings(@ForAll String text) {
    check(text.getBytes(StandardCharsets.UTF_8));
  }

  @Property
  void anyPiecesOfYamlGiveALoopOrFindings(@ForAll("yamlLike") String text) {
    check(text.getBytes(StandardCharsets.UTF_8));
  }

  @Property(tries = 1_000)
  void aDamagedFileGivesALoopOrFindings(@ForAll("damaged") byte[] bytes) {
    check(bytes);
  }

  @Property(tries = 500)
  void aFileWithOtherValuesGivesALoopOrFindings(@ForAll("otherValues") String text) {
    check(text.getBytes(StandardCharsets.UTF_8));
  }

  @Provide
  Arbitrary<String> yamlLike() {
    return Arbitraries.of(PIECES).list().ofMaxSize(60).map(pieces -> String.join("", pieces));
  }

  @Provide
  Arbitrary<byte[]> damaged() {
    return Arbitraries.randomValue(LoopReaderProperties::damage);
  }

  @Provide
  Arbitrary<String> otherValues() {
    return Arbitraries.randomValue(LoopReaderProperties::swapValues);
  }

  /** A valid file with a few bytes changed, dropped, doubled, or pieces put in. */
  private static byte[] damage(Random random) {
    StringBuilder file =
        new StringBuilder(LoopPrinter.print(Loops.random(random.nextLong(), 1).get(0)));
    for (int i = 1 + random.nextInt(3); i > 0; i--) {
      int at = random.nextInt(file.length());
      int end = Math.min(file.length(), at + 1 + random.nextInt(40));
      switch (random.nextInt(4)) {
        case 0 -> file.setCharAt(at, (char) random.nextInt(256));
        case 1 -> file.delete(at, end);
        case 2 -> file.insert(at, file.substring(at, end));
        default -> file.insert(at, PIECES[random.nextInt(PIECES.length)]);
      }
    }
    byte[] bytes = file.toString().getBytes(StandardCharsets.UTF_8);
    if (random.nextInt(4) == 0) {
      bytes[random.nextInt(bytes.length)] = (byte) random.nextInt(256);
    }
    return bytes;
  }

  /** A valid file in which some lines have the value of another line. */
  private static String swapValues(Random random) {
    List<Loop> loops = Loops.random(random.nextLong(), 2);
    List<String> lines = new ArrayList<>(LoopPrinter.print(loops.get(0)).lines().toList());
    List<String> others = LoopPrinter.print(loops.get(1)).lines().toList();
    for (int i = 1 + random.nextInt(6); i > 0; i--) {
      int at = random.nextInt(lines.size());
      String key = lines.get(at).substring(0, lines.get(at).indexOf(':') + 1);
      String other = others.get(random.nextInt(others.size()));
      lines.set(at, key.replace("# ", "") + other.substring(other.indexOf(':') + 1));
    }
    return String.join("\n", lines);
  }

  private static void check(byte[] bytes) {
    try {
      Loop loop = LoopReader.read("any.yaml", bytes);
      assertTrue(loop.equals(LoopReader.read("printed.yaml", LoopPrinter.print(loop))));
    } catch (InputException e) {
      assertFalse(e.findings().isEmpty());
      e.findings().forEach(LoopReaderProperties::checkFinding);
    }
  }

  private static void checkFinding(Finding finding) {
    assertTrue(finding.line() >= 0 && finding.column() >= 0, finding.text());
    assertFalse(finding.found().isBlank() || finding.expected().isBlank(), finding.text());
    assertTrue(finding.text().lines().count() == 1, finding.text());
  }
}
