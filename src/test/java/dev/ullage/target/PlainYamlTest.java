package dev.ullage.target;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.Findings;
import dev.ullage.input.Node;
import dev.ullage.input.YamlTree;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PlainYamlTest {

  @Test
  void catalogueFiles_areReadAsTheLibraryReadsThem() throws IOException {
    Path folder = Path.of("targets");
    int plain = 0;
    for (String file : Files.readAllLines(folder.resolve("index.txt"))) {
      String text = Files.readString(folder.resolve(file));
      Optional<Node.Mapping> read = PlainYaml.read(text);
      assertEquals(read.map(any -> library(text)), read, file);
      plain += read.isPresent() ? 1 : 0;
    }
    assertTrue(plain > 40, plain + " files are in its own form");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "a: 1\nb: two words\n",
        "# comment\n\na:\n  b: {c: (1 << X), d: {e: f}}\n",
        "a:\n  - one\n  - \"two: quoted\"\n  - k: v\n    l: w\nz: 0\n",
        "a: {}\n"
      })
  void itsOwnForm_isReadAsTheLibraryReadsIt(String text) {
    assertEquals(Optional.of(library(text)), PlainYaml.read(text));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "word",
        "- one\n- two\n",
        "a: [1, 2]\n",
        "a: 'quoted'\n",
        "a: &anchor 1\nb: *anchor\n",
        "a: !!int 1\n",
        "a: |\n  text\n",
        "a: folded\n  text\n",
        "a: 1 # comment\n",
        "a: b: c\n",
        "a: {b: 1\n",
        "a: {b: 1} c\n",
        "a: {b: 1,c: 2}\n",
        "a: 1\na: 2\n",
        "a:\n",
        " a: 1\nb: 2\n",
        "a: \"x\\n\"\n",
        "a:\t1\n",
        "a: {b: c}}\n",
        "a:\n  - \n",
        "a: {b: [1]}\n",
        "a: {b: c: d}\n",
        "a: {b: 1 #c}\n",
        "a: \u00e9\n",
        "a: b:\n"
      })
  void anythingElse_isLeftToTheLibrary(String text) {
    assertTrue(PlainYaml.read(text).isEmpty());
  }

  @Test
  void depthWithoutEnd_isLeftToTheLibrary() {
    assertTrue(PlainYaml.read("a: " + "{a: ".repeat(100_000) + "b\n").isEmpty());
    StringBuilder stairs = new StringBuilder();
    for (int i = 0; i < 5_000; i++) {
      stairs.append(" ".repeat(i)).append("a:\n");
    }
    assertTrue(PlainYaml.read(stairs.toString()).isEmpty());
  }

  private static Node.Mapping library(String text) {
    return YamlTree.read(text, new Findings("test"));
  }
}
