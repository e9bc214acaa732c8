package dev.ullage.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import dev.ullage.input.InputException;
import dev.ullage.measure.Symbol.Kind;
import dev.ullage.testing.Tool;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class BaselineTest {

  private static Baseline baseline(Piece... more) {
    List<Piece> pieces = new ArrayList<>(List.of(more));
    for (char c = 'a'; c <= 'h'; c++) {
      pieces.add(new Piece("f_" + c, "src/" + c + ".o", Kind.CODE, 10 + c, "0000000" + c));
    }
    return new Baseline("a compiler", OptionalInt.of(38), pieces);
  }

  private static Baseline read(String text) {
    return Baseline.read(new TextFile("ullage.baseline", text));
  }

  @Test
  void text_isReadAsItWasWritten() {
    Baseline written = baseline(new Piece("zero", "", Kind.BSS, 4, ""));
    assertEquals(written, read(written.text()));
  }

  @Test
  void lines_areSortedWhateverTheOrder() {
    String text = baseline().text();
    List<String> lines = text.lines().skip(3).toList();
    assertEquals(lines.stream().sorted().toList(), lines);
    assertEquals(3 + 8, text.lines().count(), "a line for each symbol, and no sums");
  }

  @Test
  void branches_mergeWithoutAConflict(@TempDir Path folder) throws IOException {
    Tool.require("git");
    Piece menu = new Piece("menu", "src/aa.o", Kind.CODE, 50, "aaaaaaaa");
    Piece screen = new Piece("screen", "src/gg.o", Kind.CODE, 70, "bbbbbbbb");
    Files.writeString(folder.resolve("base"), baseline().text());
    Files.writeString(folder.resolve("mine"), baseline(menu).text());
    Files.writeString(folder.resolve("yours"), baseline(screen).text());
    Tool.output(folder, "git", "merge-file", "mine", "base", "yours");
    assertEquals(baseline(menu, screen), read(Files.readString(folder.resolve("mine"))));
  }

  @Test
  void everyWrongLine_isFound() {
    String text =
        baseline().text()
            + "<<<<<<< HEAD\n"
            + "src/a.o\tf_a\tcode\t12\t-\n"
            + "src/z.o\tf_z\tcode\tmany\t-\n";
    InputException wrong = assertThrows(InputException.class, () -> read(text));
    assertEquals(3, wrong.findings().size());
    assertTrue(wrong.getMessage().contains(":12: the line must be resolved"), wrong.getMessage());
    assertTrue(wrong.getMessage().contains("was said on line 4 already"), wrong.getMessage());
  }

  @Test
  void anotherFile_isNoBaseline() {
    assertThrows(InputException.class, () -> read("flash 12\n"));
    assertThrows(InputException.class, () -> read(""));
  }
}
