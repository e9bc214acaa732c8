package dev.ullage.input;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class YamlTreeTest {

  @Test
  void nodes_knowTheirPlaces() {
    Node.Mapping tree = YamlTree.read("a: 1\nlist:\n  - x\n  - {k: 'v'}\n", new Findings("t.yaml"));
    Node.Entry list = tree.entries().get(1);
    assertEquals(2, list.key().line());
    Node.Mapping item = (Node.Mapping) ((Node.Sequence) list.value()).items().get(1);
    assertEquals(new Node.Scalar("v", false, 4, 9), item.entries().get(0).value());
  }

  @Test
  void brokenSyntax_namesPlaceAndCure() {
    assertEquals(
        "t.yaml:2:1: the file must be YAML 1.2, but was broken by a tab; indent line 2 with spaces,"
            + " not with tabs",
        only("a:\n\tb: 1\n"));
    assertEquals(
        "t.yaml:3:4: the file must be YAML 1.2, but was broken here (mapping values are not allowed"
            + " here); put a space after the colon on line 2: `b: 1`",
        only("a:\n  b:1\n  c: 2\n"));
    assertEquals(
        "t.yaml:2:3: the file must be YAML 1.2, but was broken here (mapping values are not allowed"
            + " here); keys of one mapping begin in the same column",
        only("a: 1\n b: 2\n"));
  }

  @Test
  void wholeFileMistakes_areNamed() {
    assertEquals(
        "t.yaml:1:1: the file must be a mapping of keys to values, but was empty", only(""));
    assertEquals(
        "t.yaml:1:1: the file must be a mapping of keys to values, but was a list of 1",
        only("- a\n"));
    assertEquals(
        "t.yaml:2:1: the file must be one document, but was followed by another",
        only("a: 1\n---\nb: 2\n"));
    assertEquals(
        "t.yaml:1:4: the file must be printable text, but was the character U+0000",
        only("a: \u0000"));
  }

  @Test
  void severalMistakes_areFoundTogether() {
    Findings findings = new Findings("t.yaml");
    YamlTree.read("a: !!str 1\nb: 1\nb: 2\n? [c]\n: d\ne: {f: 1, f: 2}\n", findings);
    assertEquals(
        List.of(
            "tagged `tag:yaml.org,2002:str`", "given again", "keyed by a list of 1", "given again"),
        findings.sorted().stream().map(Finding::found).toList());
    assertTrue(findings.concern("e.f"));
  }

  /** The library throws a NumberFormatException of its own here. */
  @Test
  void impossibleEscape_isFound() {
    assertTrue(only("a: 1\nb: \"\\UFFFFFFFF\"\n").startsWith("t.yaml:"));
  }

  @Test
  void aliasesToThemselves_areRefused() {
    assertTrue(only("a: &x [*x]\n").contains("*x"));
    assertTrue(only("a: *nowhere\n").contains("nowhere"));
  }

  @Test
  void moreAliasesThanAnyoneNeeds_areRefused() {
    String file = "a: &a 1\nb: [" + "*a, ".repeat(51) + "1]\n";
    assertEquals(
        "t.yaml:2:205: the file must be of at most 50 aliases, but was one more", only(file));
  }

  @ParameterizedTest
  @ValueSource(strings = {"[", "{a: ", "- ", "? ", "[{a: ", "a: &a [*a, ", "!a ", "'", "\"\\"})
  void endlessNesting_isRefusedAtOnce(String piece) {
    String text = piece.repeat(SourceText.MAX_BYTES / piece.length());
    assertTimeoutPreemptively(
        Duration.ofSeconds(10), () -> assertThrows(InputException.class, () -> tree(text)));
  }

  /**
   * Each level doubles: nine lines would stand for a thousand million nodes if they were copied.
   */
  @Test
  void doublingAliases_stayAsSmallAsTheyAreWritten() {
    StringBuilder bomb = new StringBuilder("a0: &a0 [x, x]\n");
    for (int i = 1; i <= 24; i++) {
      bomb.append("a").append(i).append(": &a").append(i);
      bomb.append(" [*a").append(i - 1).append(", *a").append(i - 1).append("]\n");
    }
    assertTimeoutPreemptively(
        Duration.ofSeconds(10), () -> assertEquals(25, tree(bomb.toString()).entries().size()));
  }

  @Test
  void bytesThatAreNotUtf8_areRefusedWithTheirPlace() {
    byte[] latin1 = "a: 1\nb: \u00e4\n".getBytes(StandardCharsets.ISO_8859_1);
    InputException thrown =
        assertThrows(InputException.class, () -> SourceText.decode("t.yaml", latin1));
    assertEquals(
        "t.yaml:2:4: the file must be UTF-8 text, but was broken by the byte 0xE4; save it as UTF-8"
            + " in your editor",
        thrown.getMessage());
  }

  @Test
  void fileBeyondTheLimit_isRefused() {
    byte[] large = " ".repeat(SourceText.MAX_BYTES + 1).getBytes(StandardCharsets.UTF_8);
    InputException thrown =
        assertThrows(InputException.class, () -> SourceText.decode("t.yaml", large));
    assertEquals(
        "t.yaml: the file must be at most 65536 bytes, but was longer", thrown.getMessage());
  }

  private static Node.Mapping tree(String text) {
    return YamlTree.read(text, new Findings("t.yaml"));
  }

  /** The text of the one finding. */
  private static String only(String text) {
    InputException thrown = assertThrows(InputException.class, () -> tree(text));
    assertEquals(1, thrown.findings().size());
    return thrown.getMessage();
  }
}
